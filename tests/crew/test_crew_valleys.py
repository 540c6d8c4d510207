"""Valley sheets in the order of the work, as the trade lays them: the sheet first, then what laps onto it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from crew_jobs import BASE_BANDS, CAP_BANDS, FRAME, PLAIN, THREE, TWO, M, lay_ply, make_roof, metal

from lapwright.assembly.values import Assembly, Sheet
from lapwright.crew.steps import Step, make_steps
from lapwright.defaults.rules import make_rules
from lapwright.layout.place import make_layout
from lapwright.layout.values import Detail, Frame, Layout
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Area, Drain

FOOT = 24_384
BACK = Frame((0.0, 0.0), (-1.0, 0.0), (0.0, -1.0), 1.0)
NAMES = {2: ("base", "cap"), 3: ("base", "interply", "cap")}


def valley(ply: str, k: int, left: float, right: float) -> Detail:
    """A length of valley sheet, 1 m wide, on the line y = 0."""
    id, line = f"Main/side 1/{ply} valley {k}", ((left, 0.0), (right, 0.0))
    return Detail(id, "valley", "Main", "side 1", "sheet", ply, right - left, 1.0, "", line)


def two_planes(details: Sequence[Detail], *, plies: int = 2, joints: tuple[float, ...] = (0.0, 20.0)) -> Layout:
    """Main to the north of a valley on y = 0, South to the south of it, both 20 m by 2.3 m, courses from the valley."""
    laid = []
    back = tuple(-x for x in reversed(joints))
    for at, (area, ends) in enumerate((("Main", joints), ("South", back))):
        for k, name in enumerate(NAMES[plies]):
            bands = CAP_BANDS if name == "cap" else BASE_BANDS
            first = 1 + (plies * at + k) * 3 * (len(joints) - 1)
            laid.append(lay_ply(name, k + 1, bands, joints=ends, first=first, area=area))
    return Layout({"Main": FRAME, "South": BACK}, tuple(laid), tuple(details), (), (), ())


def planes(drains: tuple[Drain, ...] = ()) -> tuple[Area, Area]:
    """The two areas, each with its side 1 in the valley."""
    main, ring = make_roof(), ((20 * M, 0), (0, 0), (0, -23 * M // 10), (20 * M, -23 * M // 10))
    edges = (replace(main.edges[0], kind="valley", meets="South"), *main.edges[1:])
    ends = zip(main.edges, ring, (*ring[1:], ring[0]), strict=True)
    own = tuple(replace(edge, start=start, end=end) for edge, start, end in ends)
    south = Area("South", ring, (replace(own[0], kind="valley", meets="Main"), *own[1:]), (0.0, 1.0), 0.0, ())
    return replace(main, edges=edges, drains=drains), south


def order_of(layout: Layout, areas: Sequence[Area] = (), assembly: Assembly = TWO) -> list[str]:
    """What is put down, in order."""
    return [step.work.id for step in make_steps(layout, areas or planes(), assembly, PLAIN)]


def test_the_valley_sheet_lies_before_the_courses_of_its_ply_on_both_sides() -> None:
    """The sheets reach 0.5 m up either side.

    Base sheet, then base courses.  The cap sheet covers the base of both planes, their courses at 0-0.5 and
    0.4-1.4 m: South's go ahead, since they could not be laid under a cap sheet that lies.  Then the cap courses.
    """
    layout = two_planes([valley("base", 1, 0, 20), valley("cap", 1, 0, 20)])
    assert order_of(layout) == [
        *("Main/side 1/base valley 1", "Main/base/01/1", "Main/base/02/1", "South/base/01/1", "South/base/02/1"),
        *("Main/side 1/cap valley 1", "Main/cap/01/1", "Main/base/03/1", "Main/cap/02/1", "Main/cap/03/1"),
        *("South/cap/01/1", "South/base/03/1", "South/cap/02/1", "South/cap/03/1"),
    ]


def test_each_of_three_plies_has_its_valley_sheet_before_its_courses() -> None:
    """The interply sheet lies on both bases, the cap sheet on both interplies."""
    layout = two_planes([valley(ply, 1, 0, 20) for ply in NAMES[3]], plies=3)
    order = order_of(layout, assembly=THREE)
    sheets = [f"Main/side 1/{ply} valley 1" for ply in NAMES[3]]
    assert [id for id in order if id in sheets] == sheets
    for sheet, own, under in zip(sheets, NAMES[3], ("", *NAMES[3][:2]), strict=True):
        place = order.index(sheet)
        assert [id for id in order[:place] if f"/{own}/0" in id] == []
        lower = [f"{area}/{under}/{course}/1" for area in ("Main", "South") for course in ("01", "02") if under]
        assert set(lower) <= set(order[:place])


def test_the_lower_length_lies_before_the_one_that_laps_it() -> None:
    """The valley falls to the east: its first length is the east one, though courses are laid from the west."""
    made = [valley("base", 1, 9.9, 20), valley("base", 2, 0, 10), valley("cap", 1, 9.9, 20), valley("cap", 2, 0, 10)]
    order = order_of(two_planes(made, joints=(0.0, 10.0, 20.0)))
    assert order[:3] == ["Main/side 1/base valley 1", "Main/side 1/base valley 2", "Main/base/01/1"]
    cap = order.index("Main/side 1/cap valley 1")
    assert order.index("Main/side 1/cap valley 2") < order.index("Main/cap/01/1")
    assert cap < order.index("Main/side 1/cap valley 2")


def test_a_length_that_no_piece_reaches_still_lies_first() -> None:
    """A sheet 5 m off the roof, and one whose place is not said, go before the first piece."""
    away = replace(valley("base", 1, 0, 20), line=((0.0, -30.0), (20.0, -30.0)))
    for odd in (away, replace(away, line=None)):
        assert order_of(two_planes([odd]))[:2] == ["Main/side 1/base valley 1", "Main/base/01/1"]


def test_drains_and_metal_in_the_valley_lie_under_its_cap_sheet() -> None:
    """A drain at 15 m and metal at the end of the valley are set on the base before the cap sheet covers them."""
    rake = replace(metal(1, 0, 2), line=((0.0, 0.0), (0.0, 2.0)))
    layout = two_planes([valley("base", 1, 0, 20), valley("cap", 1, 0, 20), rake])
    order = order_of(layout, planes((Drain("D-1", "drain", at=(15 * M, 0)),)))
    cap = order.index("Main/side 1/cap valley 1")
    assert order.index("Main/base/03/1") < order.index("Main/side 1/metal 1") < cap
    assert order.index("Main/base/02/1") < order.index("Main/D-1") < cap


def test_what_goes_ahead_across_the_valley_is_open_and_tied_off() -> None:
    """While Main is laid, South's two base courses wait for their cap and end at 1.4 m, y = -1.4."""
    layout = two_planes([valley("base", 1, 0, 20), valley("cap", 1, 0, 20)])
    steps = {step.work.id: step for step in make_steps(layout, planes(), TWO, PLAIN)}
    last = steps["Main/cap/03/1"]
    assert last.open_ids == ("South/base/01/1", "South/base/02/1")
    assert {round(y, 6) for line in last.tie_off for _, y in line} == {-1.4}


def test_a_valley_sheet_is_paced_by_the_place_of_its_ply() -> None:
    """Named otherwise, the top ply's sheet is still cap work: 20 m at 60 m/h are 1200 s."""
    layout = two_planes([valley("cap", 1, 0, 20)])
    named = tuple(replace(ply, ply="top" if ply.ply == "cap" else ply.ply) for ply in layout.plies)
    layout = replace(layout, plies=named, details=(replace(layout.details[0], ply="top"),))
    top = Assembly((TWO.plies[0], replace(TWO.plies[1], ply="top")))
    work = next(step.work for step in make_steps(layout, planes(), top, PLAIN) if "valley" in step.work.id)
    assert (work.kind, work.person_s) == ("cap", pytest.approx(1200.0))


def laid_planes(ways: Sequence[tuple[float, float]]) -> tuple[Layout, tuple[Step, ...]]:
    """24' by 24' in four triangles that fall the given ways, laid in sheets of 1 m by 10 m, with its steps."""
    side, middle = 24 * FOOT, (12 * FOOT, 12 * FOOT)
    ring = [(0, 0), (side, 0), (side, side), (0, side)]
    area = make_area("Main", ring, falls=ways[0], slope=1 / 48, edges=[EdgeRow((1, 2, 3, 4), "metal_edge")])
    corners = zip(ring, (*ring[1:], ring[0]), ("S", "E", "N", "W"), ways, strict=True)
    rows = [PlaneRow(name, (a, b, middle), way, 1 / 48) for a, b, name, way in corners]
    areas = split_area(area, rows)
    sheet = Sheet("sheet", M, 10 * M, FOOT // 4, FOOT // 2)
    pair = Assembly(tuple(replace(ply, sheet=sheet) for ply in TWO.plies))
    layout = make_layout(areas, pair, make_rules({}), grid=127, patience=0.1)
    return layout, make_steps(layout, areas, pair, PLAIN)


def test_on_a_roof_that_falls_to_its_middle_whatever_laps_a_valley_sheet_lies_later() -> None:
    """Four valleys at 45° to the courses: of every lap that a valley sheet has with a course, the course is later.

    Each cap sheet lies later than the base sheet of its valley.
    """
    layout, steps = laid_planes(((0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)))
    order = {step.work.id: k for k, step in enumerate(steps)}
    sheets = {one.id for one in layout.details if one.kind == "valley"}
    lapped = [(a, b) for a, b in (lap.pieces for lap in layout.laps) if len({a, b} & sheets) == 1]
    onto = [(a, b) if a in sheets else (b, a) for a, b in lapped]
    assert len({sheet for sheet, _ in onto}) == len(sheets) >= 8
    assert [(sheet, piece) for sheet, piece in onto if order[sheet] > order[piece]] == []
    caps = [(one.of, one.area, order[one.id]) for one in layout.details if one.id in sheets and one.ply == "cap"]
    bases = [(one.of, one.area, order[one.id]) for one in layout.details if one.id in sheets and one.ply == "base"]
    late = [cap for of, area, cap in caps if any(base > cap for o, a, base in bases if (o, a) == (of, area))]
    assert late == []
