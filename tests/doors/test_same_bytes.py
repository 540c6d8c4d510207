"""The same job gives the same bytes of every file."""

from __future__ import annotations

from pathlib import Path

from planned_jobs import Planned, lapwright


def test_same_bytes_from_another_folder_and_hash_seed(planned: Planned, tmp_path: Path) -> None:
    """Another process with another hash seed, working folder, zone and name of the folder writes the same bytes."""
    copy = tmp_path / "elsewhere" / planned.job.name
    copy.parent.mkdir()
    for path in planned.job.parent.iterdir():
        if path.is_file():
            (copy.parent / path.name).write_bytes(path.read_bytes())
    done = lapwright(
        "plan", copy.name, "--out", "another", "--quiet", cwd=copy.parent, PYTHONHASHSEED="77", TZ="Asia/Tokyo"
    )
    assert done.returncode == planned.done.returncode, done.stderr
    differing = [
        path.name
        for path in sorted(planned.folder.iterdir())
        if path.read_bytes() != (copy.parent / "another" / path.name).read_bytes()
    ]
    assert differing == []
