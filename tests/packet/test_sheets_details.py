"""Details are drawn from the job: each size that changes in the job changes in the drawing, by as much."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sample import BASE, CAP, METAL, annex_area, main_area, sample_paper
from shapely import LineString, Polygon
from shapely.ops import unary_union

from lapwright.defaults.rules import make_rules
from lapwright.layout.place import make_layout
from lapwright.packet.drawing import Fill, Pattern, Points, Stroke, Text
from lapwright.packet.sheets.buildup import Buildup, Path
from lapwright.packet.sheets.details import detail_list, detail_plates, flashings_at, rows_at
from lapwright.packet.sheets.edgedetail import metal_edge_section
from lapwright.packet.sheets.section import Section, spread
from lapwright.packet.sheets.smalldetails import pipe_section, tie_off_section
from lapwright.packet.sheets.substrate import Job
from lapwright.packet.sheets.tjointdetail import tjoint_plan
from lapwright.packet.sheets.walldetail import Stand, flashing_section
from lapwright.packet.svg import svg_text
from lapwright.packet.values import Engineered, Paper
from lapwright.roof.values import Metal
from lapwright.units.write import Units

INCH = 0.0254


def job(plies: int = 2, **rules: str) -> Job:
    """The sample's job with other rules."""
    paper = sample_paper(plies)
    given = {"ply_offset": '12"', **rules} if plies == 3 else rules
    return Job(replace(paper, rules=make_rules(given)), Units("us"))


def with_sheets(paper: Paper, thickness: float | None) -> Job:
    """The job with another thickness of the base sheet."""
    base, cap = paper.assembly.plies
    sheet = replace(base.sheet, thickness=thickness)
    assembly = replace(paper.assembly, plies=(replace(base, sheet=sheet), cap))
    return Job(replace(paper, assembly=assembly, sheets={sheet.name: sheet, cap.sheet.name: cap.sheet}), Units("us"))


def shapes(section: Section, pattern: Pattern, ink: str = "ink") -> list[Points]:
    """Outlines of everything filled with a hatch."""
    return [
        ring
        for item in section.items
        if isinstance(item, Fill) and (item.pattern, item.ink) == (pattern, ink)
        for ring in item.rings
    ]


def wide(ring: Points) -> float:
    """Extent along x."""
    return max(x for x, _ in ring) - min(x for x, _ in ring)


def tall(ring: Points) -> float:
    """Extent along y."""
    return max(y for _, y in ring) - min(y for _, y in ring)


def dims(section: Section) -> list[str]:
    """What is written on dimension lines."""
    return [dim.words for dim in section.dims]


def notes(section: Section) -> str:
    """Everything that is named."""
    return "; ".join(note.words for note in section.notes)


@pytest.mark.parametrize("strip", ['9"', '12"', '6 1/2"'])
def test_the_edge_strip_is_drawn_as_wide_as_the_rule(strip: str) -> None:
    """A strip of 9" is 0.2286 m wide in the section, and its dimension says so."""
    section = metal_edge_section(job(edge_strip=strip), METAL, title="t")
    inches = {'9"': 9.0, '12"': 12.0, '6 1/2"': 6.5}[strip]
    assert wide(shapes(section, "cross")[0]) == pytest.approx(inches * INCH)
    assert f"strip {strip}" in dims(section)


@pytest.mark.parametrize("thickness", [0.0015, 0.0022, 0.003])
def test_plies_are_drawn_four_times_as_thick(thickness: float) -> None:
    """A base of 1.5 mm is 6 mm thick in the section: it lies on y = 0 and is turned down 2" outside x = 0."""
    section = metal_edge_section(with_sheets(sample_paper(2), thickness), METAL, title="t")
    base = shapes(section, "diagonal")[0]
    assert max(y for _, y in base) == pytest.approx(4 * thickness)
    assert max(x for x, _ in base) == pytest.approx(4 * thickness)
    assert min(y for _, y in base) == pytest.approx(-2 * INCH)


def test_three_plies_have_the_interply_where_the_strip_would_be() -> None:
    """No strip under the metal of three plies; the interply is turned down, and the metal meets the interply."""
    section = metal_edge_section(job(3), METAL, title="t")
    assert shapes(section, "cross") == []
    assert len(shapes(section, "back")) == 1
    assert 'interply: 2" past the edge, turned down' in notes(section)
    assert "trowel-grade SBS mastic where metal meets interply" in notes(section)


def test_two_plies_name_every_component() -> None:
    """Base, strip, mastic bed and both fillets, metal, fasteners, cap, bead, nailer, boards and deck."""
    text = notes(metal_edge_section(job(), METAL, title="t"))
    wanted = [
        "base ply: sheet base-sa",
        "edge strip: sheet base-sa",
        'bed of trowel-grade SBS mastic, 1/8" to 1/4" thick',
        "trowel-grade SBS mastic where strip meets base",
        "trowel-grade SBS mastic where metal meets strip",
        "galvanised, 24 gauge, flange primed",
        'fasteners 4" to 6" apart in 2 rows offset 2"',
        "cap ply: sheet cap-sa",
        "bead of caulk-grade SBS mastic in the gap, granules broadcast in it",
        'cover board: gypsum, 1/2", adhered',
        'insulation: polyiso, 3", adhered',
        "deck: concrete, not nailable",
    ]
    assert [one for one in wanted if one not in text] == []


def test_the_cap_is_held_back_from_the_metal() -> None:
    """1/2" from the metal's face, wherever that stands; 3/4" where the rule says so."""
    for text, inches in (('1/2"', 0.5), ('3/4"', 0.75)):
        section = metal_edge_section(job(cap_back_from_edge=text), METAL, title="t")
        cap = shapes(section, "solid", "grey")[0]
        metal = next(item for item in section.items if isinstance(item, Stroke) and item.weight == "outline")
        assert max(x for x, _ in metal.points[:2]) - max(x for x, _ in cap) == pytest.approx(inches * INCH)
        assert text in dims(section)


def test_metal_is_drawn_from_its_sizes() -> None:
    """A flange of 4" and a face of 5" are 0.1016 and 0.127 m; a metal without sizes says that they are not given."""
    section = metal_edge_section(job(), METAL, title="t")
    metal = next(item for item in section.items if isinstance(item, Stroke) and item.weight == "outline")
    (x0, y0), (x1, _), (_, y2), _ = metal.points
    assert (x1 - x0, y0 - y2) == (pytest.approx(4 * INCH), pytest.approx(5 * INCH))
    bare = metal_edge_section(job(), None, title="t")
    assert [one for one in dims(bare) if "not given" in one] == ["flange not given", "face not given"]
    assert "kind not given, gauge not given" in notes(bare)


def test_a_missing_thickness_is_said_and_still_drawn() -> None:
    """A base without a thickness is named so; its shape is there."""
    section = metal_edge_section(with_sheets(sample_paper(2), None), METAL, title="t")
    assert "base ply: sheet base-sa, thickness not given" in notes(section)
    assert len(shapes(section, "diagonal")) == 1


def curb(height: float) -> Section:
    """The section at the sample's first curb, made `height` high; the layout follows."""
    paper = sample_paper(2)
    area = main_area()
    opening = replace(area.openings[0], height=height)
    area = replace(area, openings=(opening, *area.openings[1:]))
    layout = make_layout((area, annex_area()), paper.assembly, paper.rules, grid=127, patience=0.05)
    one = Job(replace(paper, areas=(area, annex_area()), layout=layout), Units("us"))
    place = ("Main", "RTU-1")
    return flashing_section(
        one, Stand("curb", "curb", height, flashings_at(one, place), rows=rows_at(one, place)), title="t"
    )


def test_a_flashing_over_24_is_drawn_with_its_row_of_fasteners() -> None:
    """At 30" one row, 15" up; at 24" none.  Both are nailed at the top, 6" apart."""
    low, tall = curb(24 * INCH), curb(30 * INCH)
    row = 'row of fasteners part-way up, 6" apart'
    assert (row in notes(low), row in notes(tall)) == (False, True)
    assert ('15"' in dims(low), '15"' in dims(tall)) == (False, True)
    assert all('fasteners at the top, 6" apart' in notes(one) for one in (low, tall))


def test_a_higher_curb_is_drawn_higher_by_as_much() -> None:
    """From 8" to 10" the curb grows by 2" and so does its flashing; both say their height."""
    low, high = curb(8 * INCH), curb(10 * INCH)
    walls = [max(shapes(one, "wood"), key=tall) for one in (low, high)]
    assert tall(walls[1]) - tall(walls[0]) == pytest.approx(2 * INCH)
    caps = [shapes(one, "solid", "grey")[-1] for one in (low, high)]
    assert tall(caps[1]) - tall(caps[0]) == pytest.approx(2 * INCH)
    assert ('flashing 8"' in dims(low), 'flashing 10"' in dims(high)) == (True, True)


def test_a_low_curb_is_reported() -> None:
    """A curb of 6" stands under the 8" that the rules ask."""
    assert 'curb stands 6" high; 8" is asked.' in curb(6 * INCH).remarks


@pytest.mark.parametrize(
    ("key", "text"), [("cant", '3"'), ("base_up_wall", '4"'), ("cap_up_wall", '1"'), ("flashing_height", '10"')]
)
def test_wall_rules_change_the_wall(key: str, text: str) -> None:
    """Cant, the plies' reach up the wall and the flashing's height come from the rules."""
    stand = Stand("wall", "wall", 3.0, ())
    plain, other = (flashing_section(one, stand, title="t") for one in (job(), job(**{key: text})))
    assert plain.items != other.items
    assert text in notes(other) + " ".join(dims(other)) + " ".join(other.remarks)


def test_the_tie_off_has_six_inches_on_each_side() -> None:
    """Twelve inches of strip, six on the day's work and six on the open side; water comes from the open side."""
    section = tie_off_section(job(), title="t")
    assert wide(shapes(section, "cross")[0]) == pytest.approx(12 * INCH)
    assert dims(section) == ['6"', '6"']
    assert "the way water runs" in notes(section)


def test_a_pipe_is_as_wide_as_it_is() -> None:
    """A pipe of 4" is 0.1016 m wide."""
    section = pipe_section(job(), 4 * INCH, title="t")
    assert wide(max(shapes(section, "faint"), key=tall)) == pytest.approx(4 * INCH)
    assert dims(section) == ['at least 8"', '4"']


def test_corners_are_cut_as_the_rule_and_the_selvage_say() -> None:
    """The later piece loses a triangle of 5 1/2" by 3": its edge runs from (5 1/2", 0) to (0, 3")."""
    section = tjoint_plan(job(), title="t")
    edge = next(
        item.points
        for item in section.items
        if isinstance(item, Stroke) and len(item.points) == 4 and item.line == "solid"
    )
    assert edge[1] == (pytest.approx(5.5 * INCH), 0.0)
    assert edge[2] == (0.0, pytest.approx(3 * INCH))
    assert 'cut 5 1/2"' in dims(section)


@pytest.mark.parametrize(
    "change",
    [
        {"edge_strip": '10"'},
        {"base_over_edge": '3"'},
        {"cap_back_from_edge": '1"'},
        {"cant": '3"'},
        {"base_up_wall": '3"'},
        {"corner_cut": '6"'},
        {"flashing_height": '9"'},
    ],
    ids=lambda change: next(iter(change)),
)
def test_every_rule_of_a_detail_reaches_the_paper(change: dict[str, str]) -> None:
    """A changed rule changes at least one of the detail sheets."""
    paper = sample_paper(2)
    other = replace(paper, rules=make_rules(change))
    one, two = ([svg_text(plate) for plate in detail_plates(p, width=254, height=170)] for p in (paper, other))
    assert one != two


def test_details_are_shared_by_what_is_the_same() -> None:
    """By hand: one metal edge, parapets of one height, walls of one height, four openings of four kinds or heights."""
    titles = [sheet.title for sheet in detail_list(sample_paper(2))]
    assert titles == [
        "Metal edge, two plies",
        "Base flashing at a parapet",
        "Base flashing at a wall",
        "Base flashing at a curb",
        "Base flashing at a skylight",
        "Base flashing at a hatch",
        "Base flashing at a curb",
        "Pipe",
        "Pipe",
        "Drain",
        "Overflow drain",
        "Scupper",
        "Overflow scupper",
        "Inside corner of a base flashing",
        "Outside corner of a base flashing",
        "Tie-off at the end of a day",
        "Corner cuts at an end lap",
    ]


def test_metric_jobs_are_written_in_millimetres() -> None:
    """No inch mark on the details of a metric job."""
    plates = detail_plates(sample_paper(2, "metric"), width=254, height=170)
    assert [item.text for plate in plates for item in plate.items if isinstance(item, Text) and '"' in item.text] == []


thick = st.floats(0.001, 0.02)


@given(st.lists(st.tuples(st.floats(0.0, 0.45), st.floats(0.05, 0.5), thick), min_size=1, max_size=5))
def test_layers_never_share_ground(layers: list[tuple[float, float, float]]) -> None:
    """Layers laid one on another along a straight path overlap by nothing, and lie on the path's left."""
    build = Buildup(Path(((0.0, 0.0), (1.0, 0.0))))
    rings = [Polygon(build.lay(start, start + length, height)) for start, length, height in layers]
    assert min(y for ring in rings for _, y in ring.exterior.coords) >= -1e-9
    assert unary_union(rings).area == pytest.approx(sum(ring.area for ring in rings), rel=1e-6, abs=1e-9)


def test_a_layer_round_a_corner_keeps_its_thickness() -> None:
    """Along a cant of 45° a ply of 6 mm stays 6 mm from the path on every leg."""
    path = Path(((-0.3, 0.0), (-0.1, 0.0), (0.0, 0.1), (0.0, 0.3)))
    ring = Polygon(Buildup(path).lay(0.0, path.stations[-1], 0.006))
    line = LineString(path.points)
    corners = [line.distance(LineString([point, point])) for point in ring.exterior.coords]
    assert sorted({round(distance, 4) for distance in corners})[:2] == [0.0, 0.006]
    assert ring.area == pytest.approx(line.length * 0.006, rel=0.02)


@given(
    st.lists(st.floats(0, 100), min_size=1, max_size=9).map(lambda tops: sorted(tops, reverse=True)),
    st.floats(2.0, 4.0),
)
def test_names_beside_a_section_never_touch(wanted: list[float], height: float) -> None:
    """Names keep their order, stay in the column and leave 2 mm between them."""
    tops = spread(wanted, [height] * len(wanted), 0.0, 100.0)
    assert all(above - height - 2.0 >= below - 1e-6 for above, below in pairwise(tops))
    assert max(tops) <= 100.0 + 1e-6
    assert min(tops) - height >= -1e-6


def test_sheets_of_the_sample_are_as_thick_as_typed() -> None:
    """The hand values used above are the sample's."""
    assert (BASE.thickness, CAP.thickness, METAL.flange) == (0.0015, 0.004, 0.1016)


def test_edge_metal_names_the_gauge_that_its_calculation_asks_for() -> None:
    """Aluminium of 20 gauge with a face of 120 mm, where the table asks for 16: at least 16, not 26."""
    metal = Metal(kind="aluminium", gauge=20, face=0.12, flange=0.1)
    asked = Engineered(gauges=(("aluminium", 0.12, 16), ("galvanised", 0.12, 24)))
    drawn = Job(replace(sample_paper(2), engineered=asked), Units("metric"))
    assert "aluminium, 20 gauge (at least 16), flange primed" in notes(metal_edge_section(drawn, metal, title="t"))


def test_edge_metal_is_drawn_with_the_nails_of_the_job() -> None:
    """A spacing in the job file goes before the usual one."""
    section = metal_edge_section(job(), replace(METAL, nail_spacing=3 * INCH), title="t")
    assert 'fasteners 3" apart in 2 rows offset 2"' in notes(section)


def test_a_board_screwed_down_is_named_in_words() -> None:
    """The job file's spelling with a stroke does not come onto the paper."""
    paper = sample_paper(2)
    board = replace(paper.assembly.insulation, attachment="mechanically_fastened")
    drawn = Job(replace(paper, assembly=replace(paper.assembly, insulation=board)), Units("us"))
    assert 'insulation: polyiso, 3", mechanically fastened' in notes(metal_edge_section(drawn, METAL, title="t"))
