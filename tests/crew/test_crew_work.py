"""Sizes of every piece of work."""

from __future__ import annotations

from dataclasses import replace

import pytest
from crew_jobs import PLAIN, THREE, TWO, M, flashing, make_roof, make_small, metal, strip

from lapwright.crew.work import drain_place, piece_work, placed_work
from lapwright.roof.values import Drain, Pipe


def test_sheets_take_their_area_at_their_rate() -> None:
    """20 m by 1 m at 60 m²/h are 1200 s; 20 m by 0.5 m are 600 s."""
    works = piece_work(make_small(), TWO, PLAIN)
    assert (works["Main/cap/01/1"].person_s, works["Main/base/01/1"].person_s) == pytest.approx((1200.0, 600.0))


def test_a_base_sheet_opens_its_width_less_the_lap() -> None:
    """20 m by 0.9 m of deck under a sheet of 1 m with a lap of 0.1 m; a cap opens none."""
    works = piece_work(make_small(), TWO, PLAIN)
    assert (works["Main/base/02/1"].opened, works["Main/cap/01/1"].opened) == pytest.approx((18.0, 0.0))


def test_details_take_their_length_at_their_rate() -> None:
    """3 m of metal or strip at 60 m/h are 180 s, a flashing 1 m wide 60 s; metal comes before, flashings after."""
    layout = make_small(details=(strip(1, 0, 3), metal(1, 0, 3), flashing(1, 0, 1)))
    placed = placed_work(layout, make_roof(), PLAIN)
    assert [(one.work.what, one.work.kind, one.work.person_s, one.is_first) for one in placed] == [
        ("edge strip", "base", pytest.approx(180.0), True),
        ("edge metal", "edge_metal", pytest.approx(180.0), True),
        ("flashing", "flashing", pytest.approx(60.0), False),
    ]


def test_metal_needs_a_base_under_it_and_is_covered_by_the_cap() -> None:
    """Metal from 0 to 3 m on the low edge: a base within 2" of it, the cap within 1' (2032 ticks to the inch)."""
    placed = placed_work(make_small(details=(metal(1, 0, 3),)), make_roof(), PLAIN)
    inches = [(-n * 2032, 3 * M + n * 2032, -n * 2032, n * 2032) for n in (2, 12)]
    assert [placed[0].needs_base, placed[0].box] == inches


def test_drains_are_set_before_the_cap_and_pipes_flashed_after() -> None:
    """A drain goes on the base, a pipe is flashed on the cap, a gutter is another's work."""
    roof = replace(
        make_roof(),
        pipes=(Pipe("V-1", (5 * M, M), M // 10),),
        drains=(Drain("D-1", "drain", at=(8 * M, M)), Drain("G-1", "gutter", side=1)),
    )
    found = placed_work(make_small(), roof, {**PLAIN, "drain": 5.0, "pipe": 7.0})
    assert [(one.work.id, one.work.what, one.work.person_s, one.is_first) for one in found] == [
        ("Main/D-1", "drain", 5.0, True),
        ("Main/V-1", "pipe", 7.0, False),
    ]


def test_scupper_is_found_along_its_side() -> None:
    """2 m from the start of side 2, which runs north from (20, 0); none where it is not said."""
    roof = make_roof()
    assert drain_place(roof, Drain("S-1", "scupper", side=2, from_start=2.0)) == (20 * M, 2 * M)
    assert drain_place(roof, Drain("S-2", "scupper", side=2)) is None
    assert drain_place(roof, Drain("S-3", "scupper", side=9, from_start=1.0)) is None


def test_a_mid_ply_is_interply_work() -> None:
    """Work is named by its ply and paced by its place: bottom, middle, top."""
    works = piece_work(make_small(plies=3), THREE, PLAIN)
    kinds = [works[f"Main/{ply}/01/1"].kind for ply in ("base", "interply", "cap")]
    assert kinds == ["base", "interply", "cap"]
    assert works["Main/interply/01/1"].opened == 0.0


def test_every_piece_cut_from_a_sheet_is_work_and_nothing_bought_is() -> None:
    """Tie-in strips go at the strip's rate, patches in no time; cant, cleat and covers are no work."""
    made = {kind: replace(strip(k, 0, 3), id=f"Main/side 1/{kind} {k}", kind=kind, ply="base") for k, kind in KINDS}
    placed = placed_work(make_small(details=tuple(made.values())), make_roof(), PLAIN)
    assert [(one.work.id.split("/")[-1].split(" ")[0], round(one.work.person_s)) for one in placed] == [
        ("tie_in", 180),
        ("gusset", 0),
        ("target", 0),
        ("pipe_strip", 0),
    ]


KINDS = tuple(enumerate(("tie_in", "gusset", "target", "pipe_strip", "cant", "cleat", "joint_cover", "sump")))
