"""The directory is written whole or left as it was."""

import hashlib
import json
import resource
from pathlib import Path

import pytest

from lapwright.faults import Refused
from lapwright.packet.write import refuse_taken, write_whole

FILES = {"plan.json": b"{}\n", "order.xlsx": b"PK\x03\x04"}


def state(directory: Path) -> dict[str, bytes]:
    """Every file under a directory by its relative name."""
    return {str(p.relative_to(directory)): p.read_bytes() for p in sorted(directory.rglob("*")) if p.is_file()}


def refusal(directory: Path, files: dict[str, bytes]) -> str:
    """What a refused write says, with the directory called OUT."""
    with pytest.raises(Refused) as caught:
        write_whole(directory, files)
    return caught.value.text().replace(str(directory), "OUT")


def test_manifest_names_every_file_with_its_sha256(tmp_path: Path) -> None:
    """The manifest gives schema, name, size and the sha256 that hashlib gives of the bytes on disk."""
    write_whole(tmp_path / "out", FILES)
    manifest = json.loads((tmp_path / "out" / "manifest.json").read_bytes())
    assert manifest == {
        "schema": "lapwright.manifest/1",
        "files": [
            {"name": "order.xlsx", "bytes": 4, "sha256": hashlib.sha256(b"PK\x03\x04").hexdigest()},
            {"name": "plan.json", "bytes": 3, "sha256": hashlib.sha256(b"{}\n").hexdigest()},
        ],
    }


def test_missing_parents_are_made_and_nothing_else_stays(tmp_path: Path) -> None:
    """A directory two levels down appears with the files alone; no staging folder is left anywhere."""
    write_whole(tmp_path / "a" / "b", FILES)
    assert list(state(tmp_path)) == ["a/b/manifest.json", "a/b/order.xlsx", "a/b/plan.json"]
    assert [p.name for p in tmp_path.rglob(".lapwright*")] == []


def test_new_directory_has_ordinary_access_bits(tmp_path: Path) -> None:
    """A made directory has the bits that mkdir gives, not the private ones of a temporary directory."""
    (tmp_path / "plain").mkdir()
    write_whole(tmp_path / "out", FILES)
    assert (tmp_path / "out").stat().st_mode == (tmp_path / "plain").stat().st_mode


def test_second_run_replaces_ours_removes_stale_and_keeps_others(tmp_path: Path) -> None:
    """Files of the earlier manifest are replaced or removed; a file of somebody else stays byte for byte."""
    write_whole(tmp_path, {**FILES, "days.ics": b"old"})
    (tmp_path / "notes.txt").write_bytes(b"mine")
    write_whole(tmp_path, {"plan.json": b"new", "order.xlsx": b"x"})
    assert {k: v for k, v in state(tmp_path).items() if k != "manifest.json"} == {
        "notes.txt": b"mine",
        "order.xlsx": b"x",
        "plan.json": b"new",
    }


def test_a_file_we_did_not_write_is_refused_and_nothing_changes(tmp_path: Path) -> None:
    """A name taken by somebody else's file refuses the whole, with the name and what to do."""
    write_whole(tmp_path, {"plan.json": b"1"})
    (tmp_path / "order.xlsx").write_bytes(b"theirs")
    before = state(tmp_path)
    assert refusal(tmp_path, FILES) == (
        "OUT  order.xlsx\n"
        "  read:   a file that lapwright did not write\n"
        "  needs:  a folder where this name is free; nothing was changed\n"
        "  write:  --out with another folder"
    )
    assert state(tmp_path) == before


def test_a_folder_is_looked_at_before_the_work(tmp_path: Path) -> None:
    """Refused in the words of the write itself; our own files, a free folder and one not there yet are none's."""
    write_whole(tmp_path / "ours", FILES)
    (tmp_path / "theirs").mkdir()
    (tmp_path / "theirs/order.xlsx").write_bytes(b"theirs")
    (tmp_path / "file").write_bytes(b"")
    before = state(tmp_path)
    for free in ("ours", "new"):
        refuse_taken(tmp_path / free, FILES)
    for taken in ("theirs", "file"):
        with pytest.raises(Refused) as caught:
            refuse_taken(tmp_path / taken, FILES)
        assert caught.value.text().replace(str(tmp_path / taken), "OUT") == refusal(tmp_path / taken, FILES)
    assert state(tmp_path) == before
    assert not (tmp_path / "new").exists()


def test_a_folder_of_the_name_is_refused(tmp_path: Path) -> None:
    """A folder named like one of the files is never replaced."""
    (tmp_path / "plan.json").mkdir()
    assert refusal(tmp_path, FILES) == (
        "OUT  plan.json\n"
        "  read:   a folder of this name\n"
        "  needs:  a folder where this name is free; nothing was changed\n"
        "  write:  --out with another folder"
    )


def test_the_directory_is_a_file(tmp_path: Path) -> None:
    """A file in the directory's place is refused and kept."""
    (tmp_path / "out").write_bytes(b"mine")
    assert refusal(tmp_path / "out", FILES) == (
        "OUT\n  read:   a file\n  needs:  a folder, or a name that is free\n  write:  --out with another folder"
    )
    assert (tmp_path / "out").read_bytes() == b"mine"


def test_the_system_refuses_the_directory(tmp_path: Path) -> None:
    """A place where no folder can be made is told in the system's words."""
    assert refusal(tmp_path / ("x" * 300), FILES) == (
        "OUT\n"
        "  read:   file name too long\n"
        "  needs:  a folder that can be written, with room for the files; nothing was changed\n"
        "  write:  --out with another folder"
    )


@pytest.mark.parametrize(
    "manifest",
    [
        b"{}",
        b"not json",
        b'{"schema": "other/1", "files": []}',
        b'{"schema": "lapwright.manifest/1", "files": [{"name": "../victim"}]}',
        b'{"schema": "lapwright.manifest/1", "files": [{"name": 3}]}',
        b"[" * 100_000,
    ],
    ids=["empty", "text", "other", "climbs", "number", "deep"],
)
def test_a_manifest_that_is_not_ours_is_refused(tmp_path: Path, manifest: bytes) -> None:
    """Without a manifest of ours nothing tells which files are ours, so nothing is touched."""
    (tmp_path / "victim").write_bytes(b"keep")
    out = tmp_path / "out"
    out.mkdir()
    (out / "manifest.json").write_bytes(manifest)
    before = state(tmp_path)
    assert refusal(out, FILES) == (
        "OUT  manifest.json\n"
        "  read:   a manifest that lapwright did not write\n"
        "  needs:  a folder where this name is free; nothing was changed\n"
        "  write:  --out with another folder"
    )
    assert state(tmp_path) == before


def test_no_room_for_a_file_leaves_everything(tmp_path: Path) -> None:
    """Where the system stops a write midway (here a limit on file size) the earlier files stay, no rest is left."""
    out = tmp_path / "out"
    write_whole(out, FILES)
    before = state(tmp_path)
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (10_000, hard))
    try:
        told = refusal(out, {"order.xlsx": b"new", "packet.pdf": b"x" * 20_000})
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert told.splitlines()[1] == "  read:   file too large"
    assert state(tmp_path) == before
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


@pytest.mark.parametrize("problem", [OSError(28, "No space left on device"), KeyboardInterrupt()])
def test_a_failed_exchange_puts_everything_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, problem: BaseException
) -> None:
    """A failure on the last name, also an interrupt, restores names already exchanged."""
    out = tmp_path / "out"
    write_whole(out, {**FILES, "days.ics": b"old"})
    before = state(tmp_path)
    rename = Path.rename

    def failing(path: Path, target: Path) -> Path:
        if path.parent.name == "new" and path.name == "manifest.json":
            raise problem
        return rename(path, target)

    monkeypatch.setattr(Path, "rename", failing)
    with pytest.raises((Refused, KeyboardInterrupt)):
        write_whole(out, {"plan.json": b"new", "layout.dxf": b"new"})
    assert state(tmp_path) == before
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_failure_takes_back_the_directories_made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Parents made for a run that failed are gone again."""

    def full(path: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", full)
    assert refusal(tmp_path / "a" / "b", FILES) == (
        "OUT\n"
        "  read:   no space left on device\n"
        "  needs:  a folder that can be written, with room for the files; nothing was changed\n"
        "  write:  --out with another folder"
    )
    assert list(tmp_path.iterdir()) == []


def test_stages_inside_where_the_parent_can_not_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A directory whose parent takes no new entry is still written, and left clean."""
    out = tmp_path / "out"
    out.mkdir()
    monkeypatch.setattr("lapwright.packet.write.can_hold", lambda folder: False)
    write_whole(out, FILES)
    assert sorted(p.name for p in out.iterdir()) == ["manifest.json", "order.xlsx", "plan.json"]


@pytest.mark.parametrize("name", ["../x", "a/b", "", "..", "manifest.json", "c:x", "a\\b"])
def test_a_name_that_reaches_out_is_a_bug_of_the_caller(tmp_path: Path, name: str) -> None:
    """Names come from our code; one with a folder in it never gets to the disk."""
    with pytest.raises(ValueError, match="plain file name"):
        write_whole(tmp_path, {name: b""})
    assert list(tmp_path.iterdir()) == []
