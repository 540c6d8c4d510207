"""Every comparison of `live_*.py`, at every point."""

from __future__ import annotations

import numpy as np
import pytest
from compared import Live, live_rows


@pytest.mark.filterwarnings("ignore:DatetimeIndex.dayofyear")  # pvlib's formula uses what pandas is giving up
@pytest.mark.parametrize("row", live_rows(), ids=lambda row: row.id)
def test_ours_is_theirs(row: Live) -> None:
    """Within the row's tolerance at each of its points; a value that is no number is none."""
    theirs, ours = row.both
    worst = row.worst
    told = f"at {row.at[worst]}: {ours[worst]!r} is not {theirs[worst]!r} {row.unit}"
    assert np.all(np.abs(ours - theirs) <= row.allowed), told


def test_ids_are_told_apart() -> None:
    """No two comparisons share an id."""
    ids = [row.id for row in live_rows()]
    assert sorted(set(ids)) == sorted(ids)


@pytest.mark.parametrize("ours", [[1.0, 2.0, 3.3], [1.0, 2.0, np.nan]])
def test_a_wrong_point_is_seen(ours: list[float]) -> None:
    """The worst of the points is the one that is off, or is no number."""
    row = Live("x.y", "made", "", ["a", "b", "c"], lambda: ([1.0, 2.0, 3.0], ours), "", 0.05, is_share=True)
    assert row.at[row.worst] == "c"
    assert not np.all(np.abs(row.both[1] - row.both[0]) <= row.allowed)


def test_points_must_be_named() -> None:
    """A comparison whose values are not as many as its points is refused."""
    row = Live("x.y", "made", "", ["a", "b"], lambda: ([1.0], [1.0]), "", 0.05)
    with pytest.raises(ValueError, match=r"for 2 points"):
        row.allowed.sum()
