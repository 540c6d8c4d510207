"""Puts the files of a plan in their directory: all of them or none.

Everything is first written to a new directory beside the target; only then are names exchanged, and any
failure puts back what was there.  `manifest.json` names the files that we wrote with their sha256; a later run
replaces or removes only those.  Any other file is somebody else's and is never touched.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from lapwright.faults import Fault, Refused

MANIFEST = "manifest.json"
SCHEMA = "lapwright.manifest/1"
STAGE = ".lapwright-"
LARGEST_MANIFEST = 1_000_000
FREE_FOLDER = "a folder where this name is free; nothing was changed"
ROOM = "a folder that can be written, with room for the files; nothing was changed"


@dataclass(slots=True)
class Exchange:
    """The names exchanged so far, so that they can be put back.

    kept: (name in the target, where the earlier file waits); placed: names that are new in the target.
    """

    target: Path
    earlier: Path
    kept: list[tuple[Path, Path]]
    placed: list[Path]

    def set_aside(self, name: str) -> None:
        """Move an earlier file out of the way; a name that is not there is passed over."""
        path, waiting = self.target / name, self.earlier / name
        if path.is_symlink() or path.is_file():
            path.rename(waiting)
            self.kept.append((path, waiting))

    def place(self, staged: Path) -> None:
        """Give a staged file its name in the target."""
        path = self.target / staged.name
        staged.rename(path)
        self.placed.append(path)

    def put_back(self) -> None:
        """Undo everything, last first; go on where one name can't be undone."""
        for path in reversed(self.placed):
            with suppress(OSError):
                path.unlink()
        for path, waiting in reversed(self.kept):
            with suppress(OSError):
                waiting.rename(path)


def write_whole(directory: Path, files: Mapping[str, bytes]) -> None:
    """Write every file and the manifest, or change nothing.

    Args:
        directory: made where it is missing, its parents too.
        files: plain file names and their bytes; `manifest.json` is made here.

    Raises: Refused, where the directory can't be written or holds a file of one of these names that no earlier
        manifest of ours names.  Nothing is left behind, also when interrupted.
    """
    for name in files:
        if not is_plain_name(name) or name == MANIFEST:
            raise ValueError(f"not a plain file name: {name!r}")
    with told_of(directory):
        write_or_raise(directory, files)


def refuse_taken(directory: Path, names: Iterable[str]) -> None:
    """Refuse a directory that `write_whole` would refuse as it stands, before the work for its files is done.

    Raises: Refused, where it is a file, or holds a file of one of these names that no earlier manifest of ours names.
    """
    with told_of(directory):
        earlier_or_refused(directory, names)


@contextmanager
def told_of(directory: Path) -> Iterator[None]:
    """What the system refuses, told as a fault of the directory."""
    try:
        yield
    except OSError as problem:
        said = (problem.strerror or "can't be written").lower()
        raise Refused([fault(directory, "", said, ROOM)]) from problem


def earlier_or_refused(directory: Path, names: Iterable[str]) -> tuple[str, ...]:
    """File names that an earlier manifest names; refused where the directory or one of the names is taken."""
    if directory.exists() and not directory.is_dir():
        raise Refused([fault(directory, "", "a file", "a folder, or a name that is free")])
    earlier = earlier_names(directory)
    refuse_strangers(directory, [*names, MANIFEST], earlier)
    return earlier


def write_or_raise(directory: Path, files: Mapping[str, bytes]) -> None:
    """The same; what the system refuses comes as OSError."""
    earlier = earlier_or_refused(directory, files)
    made = make_missing(directory)
    try:
        stage_and_exchange(directory, {**files, MANIFEST: manifest_bytes(files)}, earlier)
    except BaseException:
        for folder in reversed(made):
            with suppress(OSError):
                folder.rmdir()
        raise


def stage_and_exchange(directory: Path, whole: Mapping[str, bytes], earlier: Iterable[str]) -> None:
    """Write to a new directory on the same file system, then exchange names one by one."""
    stage = Path(tempfile.mkdtemp(prefix=STAGE, dir=stage_home(directory)))
    try:
        fresh, old = stage / "new", stage / "earlier"
        fresh.mkdir()
        old.mkdir()
        for name, content in whole.items():
            (fresh / name).write_bytes(content)
        exchange = Exchange(directory, old, [], [])
        try:
            for name in sorted({*earlier, *whole}):
                exchange.set_aside(name)
            # The manifest comes last: until it stands, the directory does not claim the new files.
            for name in [*(n for n in whole if n != MANIFEST), MANIFEST]:
                exchange.place(fresh / name)
        except BaseException:
            exchange.put_back()
            raise
    finally:
        shutil.rmtree(stage, ignore_errors=True)


def stage_home(directory: Path) -> Path:
    """Where to stage: beside the target, or in it where its parent is on another file system (a mount)."""
    parent = directory.resolve().parent
    same = parent.stat().st_dev == directory.stat().st_dev
    return parent if same and can_hold(parent) else directory


def can_hold(folder: Path) -> bool:
    """Whether a new entry can be made in a folder; tried, because access bits do not tell of read-only mounts."""
    try:
        Path(tempfile.mkdtemp(prefix=STAGE, dir=folder)).rmdir()
    except OSError:
        return False
    return True


def make_missing(directory: Path) -> list[Path]:
    """Make a directory and its missing parents; returns those made, outermost first.  All or none."""
    missing = [folder for folder in [directory, *directory.parents] if not folder.exists()]
    made: list[Path] = []
    try:
        for folder in reversed(missing):
            folder.mkdir()
            made.append(folder)
    except OSError:
        for folder in reversed(made):
            folder.rmdir()
        raise
    return made


def manifest_bytes(files: Mapping[str, bytes]) -> bytes:
    """The manifest: schema, then each file by name with its size and sha256."""
    entries = [
        {"name": name, "bytes": len(content), "sha256": hashlib.sha256(content).hexdigest()}
        for name, content in sorted(files.items())
    ]
    return (json.dumps({"schema": SCHEMA, "files": entries}, indent=1, ensure_ascii=False) + "\n").encode()


def earlier_names(directory: Path) -> tuple[str, ...]:
    """File names that an earlier manifest of ours names, the manifest's own included; () where there is none.

    Raises: Refused, where a manifest stands there that we did not write: then nothing says which files are ours.
    """
    path = directory / MANIFEST
    if not (path.is_symlink() or path.exists()):
        return ()
    try:
        if not path.is_file() or path.stat().st_size > LARGEST_MANIFEST:
            raise ValueError
        found = json.loads(path.read_bytes())
        names = [entry["name"] for entry in found["files"]]
        is_ours = found["schema"] == SCHEMA and all(is_plain_name(name) for name in names)
    except (OSError, ValueError, TypeError, KeyError, RecursionError):
        is_ours = False
    if not is_ours:
        raise Refused([fault(directory, MANIFEST, "a manifest that lapwright did not write", FREE_FOLDER)])
    return (*names, MANIFEST)


def refuse_strangers(directory: Path, names: Iterable[str], earlier: tuple[str, ...]) -> None:
    """Refuse where a name is taken by something that an earlier manifest does not name, or by a folder."""
    faults = []
    for name in names:
        path = directory / name
        if path.is_dir() and not path.is_symlink():
            faults.append(fault(directory, name, "a folder of this name", FREE_FOLDER))
        elif (path.is_symlink() or path.exists()) and name not in earlier:
            faults.append(fault(directory, name, "a file that lapwright did not write", FREE_FOLDER))
    if faults:
        raise Refused(faults)


def fault(directory: Path, name: str, read: str, needs: str) -> Fault:
    """A fault about the directory to write to."""
    return Fault(str(directory), 0, 0, name, read, needs, "--out with another folder")


def is_plain_name(name: object) -> bool:
    """A file name with no folder in it, so that a manifest edited by hand can't reach out of its directory."""
    return isinstance(name, str) and name not in {"", ".", ".."} and not any(c in name for c in "/\\\0:")
