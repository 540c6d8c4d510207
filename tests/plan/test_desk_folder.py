"""Job files under the hands of several: saved whole, never overwritten unseen, every step taken back."""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.faults import Refused
from lapwright.plan.desk.folder import Folder
from lapwright.plan.desk.history import step_of
from lapwright.plan.desk.jobtext import Moved, read_text, save_text


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    """A folder with one job of three lines."""
    (tmp_path / "a.yaml").write_text("one: 1\ntwo: 2\nthree: 3\n", encoding="utf-8")
    return Folder(tmp_path)


def changed(folder: Folder, old: str, new: str, words: str = "changed") -> str:
    """One word of the job replaced; the text as it stands then."""
    seen = folder.read("a").file.digest
    return folder.change("a", seen, lambda text: text.replace(old, new), words).file.text


def test_a_change_is_on_the_disk(folder: Folder) -> None:
    """What was changed is what the file says, and nothing else is left in the folder but the steps."""
    assert changed(folder, "two: 2", "two: 22") == "one: 1\ntwo: 22\nthree: 3\n"
    assert (folder.path / "a.yaml").read_text(encoding="utf-8") == "one: 1\ntwo: 22\nthree: 3\n"
    assert sorted(each.name for each in folder.path.iterdir()) == [".a.yaml.steps", "a.yaml"]


def test_a_change_from_an_older_text_is_refused(folder: Folder) -> None:
    """Two pages read the same; the second to save is told what stands there, and nothing is overwritten."""
    seen = folder.read("a").file.digest
    changed(folder, "one: 1", "one: 11")
    with pytest.raises(Moved) as moved:
        folder.change("a", seen, lambda text: "mine", "mine")
    assert moved.value.found.text == "one: 11\ntwo: 2\nthree: 3\n"
    assert (folder.path / "a.yaml").read_text(encoding="utf-8") == "one: 11\ntwo: 2\nthree: 3\n"


def test_an_editor_s_change_is_a_step_that_can_be_taken_back(folder: Folder) -> None:
    """What somebody typed into the file is kept, named, and can be undone."""
    folder.read("a")
    (folder.path / "a.yaml").write_text("typed: elsewhere\n", encoding="utf-8")
    standing = folder.read("a")
    assert standing.undo == "changed outside of the workspace"
    assert folder.undo("a", standing.file.digest).file.text == "one: 1\ntwo: 2\nthree: 3\n"


def test_steps_back_and_forth_also_after_a_restart(folder: Folder) -> None:
    """Three changes, taken back one by one by a server begun anew, and made again."""
    texts = [folder.read("a").file.text]
    texts += [
        changed(folder, f"{word}: {n}", f"{word}: x{n}", word) for n, word in enumerate(("one", "two", "three"), 1)
    ]
    again = Folder(folder.path)
    for text, words in zip(reversed(texts[:-1]), ("three", "two", "one"), strict=True):
        standing = again.read("a")
        assert standing.undo == words
        assert again.undo("a", standing.file.digest).file.text == text
    assert again.read("a").undo == ""
    with pytest.raises(Refused):
        again.undo("a", again.read("a").file.digest)
    for text in texts[1:]:
        assert again.redo("a", again.read("a").file.digest).file.text == text
    with pytest.raises(Refused):
        again.redo("a", again.read("a").file.digest)


def test_a_change_after_a_step_back_ends_the_way_forth(folder: Folder) -> None:
    """Another change in between: what was taken back can't be made again on top of it."""
    changed(folder, "one: 1", "one: 11")
    folder.undo("a", folder.read("a").file.digest)
    changed(folder, "two: 2", "two: 22")
    assert folder.read("a").redo == ""


def test_a_change_that_fails_leaves_no_step(folder: Folder) -> None:
    """A text that can't be written (it is too long to be read again) changes neither file nor steps."""
    seen = folder.read("a").file.digest
    with pytest.raises(Refused):
        folder.change("a", seen, lambda text: "x" * 1_000_001, "too long")
    assert folder.read("a").undo == ""
    assert Folder(folder.path).read("a").undo == ""


def test_a_step_noted_but_not_saved_is_forgotten(folder: Folder) -> None:
    """The server ended between the note and the save: the file is the old one, and the step is gone."""
    text = folder.read("a").file.text
    folder.history("a").note(text, "never saved\n", "never saved")
    again = Folder(folder.path)
    assert again.read("a").file.text == text
    assert again.read("a").undo == ""


def test_a_broken_line_of_steps_is_passed_over(folder: Folder) -> None:
    """A line cut in the middle by a power cut costs itself and nothing else."""
    changed(folder, "one: 1", "one: 11", "first")
    steps = folder.path / ".a.yaml.steps"
    steps.write_bytes(steps.read_bytes() + b'{"do": ["abc", "de')
    again = Folder(folder.path)
    assert again.read("a").undo == "first"
    again.change("a", again.read("a").file.digest, lambda text: text + "more: 1\n", "second")
    third = Folder(folder.path)
    assert third.read("a").undo == "second"
    assert third.undo("a", third.read("a").file.digest).undo == "first"


def test_jobs_of_one_name_in_other_capitals_are_one(folder: Folder) -> None:
    """A disk that does not tell capitals apart would overwrite."""
    with pytest.raises(Moved):
        folder.begin("A", "Another", "us")


def test_a_new_file_is_not_put_over_another(tmp_path: Path) -> None:
    """A save that expects no file finds one."""
    path = tmp_path / "b.yaml"
    path.write_text("theirs\n", encoding="utf-8")
    with pytest.raises(Moved):
        save_text(path, "mine\n", seen=None)
    assert read_text(path).text == "theirs\n"


KILLED = """
import sys
from pathlib import Path
from lapwright.plan.desk.folder import Folder
folder = Folder(Path(sys.argv[1]))
n = 0
print("ready", flush=True)
while True:
    n += 1
    text = f"n: {n}\\nx: " + "y" * 20000 + f"\\nend: {n}\\n"
    folder.change("k", folder.read("k").file.digest, lambda _: text, f"{n}")
    print(n, flush=True)
"""


def test_killed_in_the_middle_of_saves_the_file_is_whole(tmp_path: Path) -> None:
    """A process that saves without pause is killed hard, ten times: the file is always one of its whole texts, and it
    is the last one that was told as saved, or the one after it.
    """
    (tmp_path / "k.yaml").write_text("n: 0\nend: 0\n", encoding="utf-8")
    for k in range(10):
        process = subprocess.Popen([sys.executable, "-c", KILLED, str(tmp_path)], stdout=subprocess.PIPE, text=True)
        assert process.stdout is not None
        assert process.stdout.readline() == "ready\n"
        told = int(process.stdout.readline())
        time.sleep(0.013 * k)
        process.kill()
        rest = process.stdout.read().split("\n")
        process.stdout.close()
        process.wait()
        told = max([told, *(int(line) for line in rest[:-1] if line)])
        first, *_, last = (tmp_path / "k.yaml").read_text(encoding="utf-8").strip().split("\n")
        assert first.removeprefix("n: ") == last.removeprefix("end: ")
        assert int(first.removeprefix("n: ")) in (told, told + 1)
        standing = Folder(tmp_path).read("k")
        assert standing.undo in (str(told), str(told + 1))


TEXTS = st.text(alphabet="ab\n: é", max_size=30)


@given(TEXTS, TEXTS)
def test_every_step_leads_back_and_forth(before: str, after: str) -> None:
    """From any text to any other and back."""
    step = step_of(before, after, "")
    assert step.taken_back(after) == before
    assert step.made_again(before) == after
