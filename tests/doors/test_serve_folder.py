"""The folder of `lapwright serve`: made where it is new, refused where it can be none."""

from __future__ import annotations

from pathlib import Path

import pytest

from lapwright.cli.serve import check
from lapwright.faults import Refused


def test_a_new_folder_in_one_that_is_there_is_no_fault(tmp_path: Path) -> None:
    """The way the README begins: `lapwright serve my-jobs` in an empty folder."""
    assert check(tmp_path / "my-jobs", "127.0.0.1") is None


@pytest.mark.parametrize(("name", "write"), [("job.yaml", ""), ("no/my-jobs", "my-jobs")])
def test_what_can_be_no_folder_is_refused(tmp_path: Path, name: str, write: str) -> None:
    """A file, and a folder in a folder that is not there; nothing is made of either."""
    (tmp_path / "job.yaml").write_text("units: us\n", encoding="utf-8")
    with pytest.raises(Refused) as found:
        check(tmp_path / name, "127.0.0.1")
    assert [fault.write for fault in found.value.faults] == [write or str(tmp_path)]
    assert sorted(each.name for each in tmp_path.iterdir()) == ["job.yaml"]


@pytest.mark.parametrize(
    ("address", "needs"),
    [
        ("::1", "127.0.0.1, the one address that it listens at"),
        ("127.0.0.2", "127.0.0.1, the one address that it listens at"),
        ("0.0.0.0", "this machine's own address: there are no accounts yet, so nobody else may reach the jobs"),
        ("roof", "this machine's own address: there are no accounts yet, so nobody else may reach the jobs"),
    ],
)
def test_an_address_where_nobody_listens_is_refused(tmp_path: Path, address: str, needs: str) -> None:
    """It is never taken and then served elsewhere; of those that are refused, each says why."""
    with pytest.raises(Refused) as found:
        check(tmp_path, address)
    assert [(fault.needs, fault.write) for fault in found.value.faults] == [(needs, "--address 127.0.0.1")]


@pytest.mark.parametrize("address", ["127.0.0.1", "localhost"])
def test_its_own_address_is_no_fault(tmp_path: Path, address: str) -> None:
    """By number and by name."""
    assert check(tmp_path, address) is None
