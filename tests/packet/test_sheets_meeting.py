"""Sections across ridges, valleys, tie-ins, joints, drains, scuppers and corners: drawn as wide as the job says.

Sizes are typed here from the rules' defaults in inches, not read from them.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_paper

from lapwright.defaults.rules import make_rules
from lapwright.layout.values import Detail
from lapwright.packet.drawing import Fill, Pattern, Points, Stroke
from lapwright.packet.sheets.cornerdetail import corner_plan
from lapwright.packet.sheets.details import detail_list, line_drawer
from lapwright.packet.sheets.linedetails import (
    GAP,
    expansion_section,
    ridge_section,
    tie_in_section,
    valley_section,
)
from lapwright.packet.sheets.section import Section
from lapwright.packet.sheets.substrate import Job
from lapwright.packet.sheets.walldetail import WALL_THICK, Stand
from lapwright.packet.sheets.waterdetails import drain_section, scupper_section
from lapwright.roof.values import Drain, Edge
from lapwright.units.write import Units

INCH = 0.0254


def job(plies: int = 2, **rules: str) -> Job:
    """The sample's job with other rules."""
    given = {"ply_offset": '12"', **rules} if plies == 3 else rules
    return Job(replace(sample_paper(plies), rules=make_rules(given)), Units("us"))


def shapes(section: Section, pattern: Pattern, ink: str = "ink") -> list[Points]:
    """Outlines of everything filled with a hatch, in the order drawn."""
    return [
        ring
        for item in section.items
        if isinstance(item, Fill) and (item.pattern, item.ink) == (pattern, ink)
        for ring in item.rings
    ]


def span(ring: Points) -> tuple[float, float]:
    """From the least x to the greatest [in]."""
    return (min(x for x, _ in ring) / INCH, max(x for x, _ in ring) / INCH)


def dims(section: Section) -> list[str]:
    """What is written on dimension lines."""
    return [dim.words for dim in section.dims]


@pytest.mark.parametrize(("text", "inches"), [('6"', 6.0), ('9"', 9.0)])
def test_each_plane_runs_past_the_ridge(text: str, inches: float) -> None:
    """Of each ply the plane laid first ends 6" beyond the line, the later one 6" before it, as the rule says."""
    section = ridge_section(job(over_ridge=text), (0.02, 0.04), title="t")
    for pattern, ink in (("diagonal", "ink"), ("solid", "grey")):
        first, later = (ring for ring in shapes(section, pattern, ink) if len(ring) > 2)
        assert span(first)[1] == pytest.approx(inches, abs=0.05)
        assert span(later)[0] == pytest.approx(-inches, abs=0.05)
    assert dims(section) == [text, text]


def test_each_side_of_a_ridge_has_its_slope() -> None:
    """At slopes of 2 % and 4 % the right end of the roof lies twice as far under the line as the left one."""
    section = ridge_section(job(), (0.02, 0.04), title="t")
    base = next(ring for ring in shapes(section, "diagonal"))
    board = shapes(section, "board")[0]
    left = max(y for x, y in board if x == pytest.approx(min(x for x, _ in board)))
    right = max(y for x, y in board if x == pytest.approx(max(x for x, _ in board)))
    assert right == pytest.approx(2 * left)
    assert left < 0.0
    assert min(y for _, y in base) == pytest.approx(left, abs=1e-3)


def test_courses_stay_back_from_a_valley() -> None:
    """In each ply: a sheet of 39 3/8" over the line first, then a course to either side that ends 3" short of it."""
    section = valley_section(job(), (0.02, 0.02), title="t")
    for pattern, ink in (("diagonal", "ink"), ("solid", "grey")):
        sheet, left, right = shapes(section, pattern, ink)
        assert span(sheet) == (pytest.approx(-39.375 / 2, abs=0.05), pytest.approx(39.375 / 2, abs=0.05))
        assert span(left)[1] == pytest.approx(-3.0, abs=0.05)
        assert span(right)[0] == pytest.approx(3.0, abs=0.05)
    assert dims(section) == ['3"', '3"', '39 3/8"']


def test_tie_in_strips_lie_half_on_either_roof() -> None:
    """A base strip of 9" and a cap strip of 12" over it, both about the line."""
    section = tie_in_section(job(), title="t")
    assert span(shapes(section, "cross")[0]) == (pytest.approx(-4.5), pytest.approx(4.5))
    assert span(shapes(section, "solid", "grey")[-1]) == (pytest.approx(-6.0), pytest.approx(6.0))
    assert dims(section) == ['9"', '12"']


def test_an_expansion_joint_is_alike_on_both_sides() -> None:
    """Two curbs with the joint between them, and two of every flashing."""
    stand = Stand("curb of the joint", "curb", 10 * INCH, (), has_top=False)
    section = expansion_section(job(), stand, title="t")
    curbs = [ring for ring in shapes(section, "wood") if len(ring) == 4]
    assert [span(ring)[0] for ring in curbs] == [
        pytest.approx(0.0, abs=1e-9),
        pytest.approx((WALL_THICK + GAP) / INCH),
    ]
    assert len(shapes(section, "diagonal")) == 2


def test_a_tall_expansion_joint_has_its_row_of_fasteners() -> None:
    """A curb of 30" with a row at 15" says so, with the height."""
    one = job()
    parts = {"wall": 26 * INCH, "cant": 4 * INCH * 2**0.5, "field": 6 * INCH}
    girth = sum(parts.values())
    piece = Detail("Main/side 9/cap flashing 1", "flashing", "Main", "side 9", "cap-sa", "cap", girth, 0.9, parts=parts)
    row = Detail("Main/side 9/fixing 1", "fixing", "Main", "side 9", "", "", 1.0, 0.0, parts={"height": 15 * INCH})
    layout = replace(one.paper.layout, details=(piece, row))
    tall = Job(replace(one.paper, layout=layout), one.units)
    drawn = line_drawer(tall, Edge(9, "expansion", (0, 0), (1, 0), height=30 * INCH), (0.02, 0.02), ("Main", "side 9"))
    assert drawn is not None
    section = drawn[1]("t")
    assert 'row of fasteners part-way up, 6" apart' in [note.words for note in section.notes]
    assert '15"' in dims(section)


def test_a_drain_has_its_sump_metal_and_targets() -> None:
    """A sump of 48", metal of 30", targets of 36" and 48"; the drain's 6" in the middle."""
    section = drain_section(job(), Drain("D", "drain", at=(0, 0), diameter=6 * INCH), 48 * INCH, title="t")
    assert dims(section) == ['6"', 'sump 48"', 'metal 30"', 'base target 36"', 'cap target 48"']
    left, right = shapes(section, "cross")
    assert span(left)[0] == pytest.approx(-18.0, abs=0.05)
    assert span(right)[1] == pytest.approx(18.0, abs=0.05)
    left, right = shapes(section, "back")
    assert span(left)[0] == pytest.approx(-24.0, abs=0.1)  # square off the sump's slope


def test_a_scupper_has_its_opening_and_strips() -> None:
    """Six inches of opening; strips 4" and 6" past a flange of 4": 8" and 10" from the wall."""
    section = scupper_section(job(), Drain("S", "scupper", side=1, width=0.3, height=6 * INCH, sill=0.0), title="t")
    assert dims(section) == ['6"', '8"', '10"']
    assert span(shapes(section, "cross")[0])[0] == pytest.approx(-8.0)
    lower, upper = shapes(section, "concrete")[-2:]
    assert min(y for _, y in upper) - max(y for _, y in lower) == pytest.approx(6 * INCH)


def test_an_overflow_scupper_stands_over_the_roof() -> None:
    """Its sill of 2" is dimensioned; no strips lie under it."""
    drain = Drain("S", "overflow_scupper", side=1, width=0.3, height=6 * INCH, sill=2 * INCH)
    section = scupper_section(job(), drain, title="t")
    assert dims(section) == ['6"', 'sill 2"']
    assert shapes(section, "cross") == []


@pytest.mark.parametrize(("inside", "low"), [(True, -12.0), (False, -10.0)])
def test_corner_gussets_are_a_foot_wide(inside: bool, low: float) -> None:  # a pair of cases
    """A foot gusset 12" square: in the corner of the faces, or about the toe of a 4" cant; 6" of upright on a face."""
    section = corner_plan(job(), inside=inside, title="t")
    assert span(shapes(section, "diagonal", "grey")[0]) == (pytest.approx(low), pytest.approx(low + 12.0))
    assert dims(section) == ['12"', '12"', '6"', '6"']
    upright = next(item for item in section.items if isinstance(item, Stroke) and item.ink == "accent")
    assert len(upright.points) == 3


def test_every_kind_of_line_has_a_detail() -> None:
    """Ridge, valley, tie-in, expansion joint and a step of given height; each under its own number, once."""
    paper = sample_paper(2)
    main, annex = paper.areas
    kinds = (("ridge", None), ("valley", None), ("tie_in", None), ("expansion", 0.3), ("step", 0.6), ("parapet", 0.5))
    edges = tuple(
        Edge(edge.side, kind, edge.start, edge.end, height)
        for edge, (kind, height) in zip(main.edges, kinds, strict=True)
    )
    titles = [sheet.title for sheet in detail_list(replace(paper, areas=(replace(main, edges=edges), annex)))]
    wanted = ["Ridge", "Valley", "Tie-in to the old roof", "Expansion joint", "Step between areas"]
    assert [title for title in titles if title in wanted] == wanted
