"""What a job file says arrives as it was typed; expected values are counted by hand, 2032 ticks to the inch."""

from __future__ import annotations

import datetime as dt
import subprocess
import sys

import pytest
from jobs import EXAMPLE, SMALL

from lapwright.faults import Refused
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline, Points, Walk
from lapwright.job.reading import job_text, read_job

INCH = 2032
FOOT = 12 * INCH


def test_example_is_read_without_a_fault() -> None:
    """The example with every key of the file format has nothing to mend."""
    job = read_job(EXAMPLE, file="job.yaml")
    assert (job.job.name, job.job.number, job.job.date) == ("Quarry Lane Depot", "26-041", dt.date(2026, 12, 1))


def test_lengths_of_the_layout_are_ticks() -> None:
    """39 3/8 inches are 39.375 times 2032 ticks, 65 feet 7 inches 787 times."""
    sheet = read_job(EXAMPLE, file="job.yaml").sheets["base-sa"]
    assert (sheet.width, sheet.length, sheet.side_lap) == (80_010, 787 * INCH, 3 * INCH)


def test_other_dimensions_are_si() -> None:
    """22 ft are 6.7056 m, 112 mph 50.06848 m/s, 50 F 10 °C, 30 inches 0.762 m: from the definitions."""
    job = read_job(EXAMPLE, file="job.yaml")
    assert job.building.height == pytest.approx(6.7056, abs=1e-12)
    assert job.building.wind_speed == pytest.approx(50.06848, abs=1e-12)
    assert job.sheets["cap-sa"].apply_at_or_above == pytest.approx(10, abs=1e-12)
    assert job.roof[0].edges[1].height == pytest.approx(0.762, abs=1e-12)


def test_roof_is_placed_by_the_tape() -> None:
    """Sides, an opening's corner and size, a pipe's centre."""
    area = read_job(EXAMPLE, file="job.yaml").roof[0]
    assert [edge.sides for edge in area.edges] == [(1,), (2, 3, 4)]
    assert (area.openings[0].at, area.openings[0].size) == ((30 * FOOT, 20 * FOOT), (8 * FOOT, 6 * FOOT))
    assert (area.pipes[0].at, area.pipes[0].diameter) == ((70 * FOOT, 40 * FOOT), 4 * INCH)
    assert (area.falls, area.slope) == ((0.0, -1.0), 0.25 / 12)


def test_crew_is_read() -> None:
    """Half past four ends the day; Monday to Friday are 0 to 4."""
    crew = read_job(EXAMPLE, file="job.yaml").crew
    assert crew.day == (dt.time(7, 0), dt.time(16, 30))
    assert (crew.people, crew.welders, crew.days, crew.fire_watch) == (6, 2, (0, 1, 2, 3, 4), 3600)


def test_bytes_are_read_as_utf_8() -> None:
    """Bytes and their text give the same job, with or without a byte order mark."""
    text = SMALL.replace("Main", "Süd")
    assert read_job(text.encode(), file="j").roof[0].area == "Süd"
    assert read_job(b"\xef\xbb\xbf" + text.encode(), file="j").roof[0].area == "Süd"


@pytest.mark.parametrize("typed", ["26-041", "007", "yes", "1e3", "0x1F", "null", "~", "1_000", "12:30:00", "[7]"])
def test_names_and_numbers_stay_as_typed(typed: str) -> None:
    """What other YAML readers turn into numbers, dates or nothing stays a text, in a name and in a number."""
    text = f'job: {{number: "{typed}"}}\n' + SMALL.replace("area: Main", f"area: '{typed}'")
    job = read_job(text, file="job.yaml")
    assert (job.job.number, job.roof[0].area) == (typed, typed)


@pytest.mark.parametrize("typed", ["26-041", "007", "yes", "1e3", "0x1F", "null", "~"])
def test_names_need_no_quotes_to_stay_as_typed(typed: str) -> None:
    """The same without quotes."""
    assert read_job(SMALL.replace("Main", typed), file="job.yaml").roof[0].area == typed


def test_what_is_left_out_is_none() -> None:
    """Nothing is guessed for a key that is absent; what has a default has it."""
    job = read_job(SMALL, file="job.yaml")
    assert (job.building.height, job.weather, job.work, job.crew.people, job.crew.fire_watch) == (None,) * 5
    assert (job.assembly.deck, job.sheets["cap-sa"].thickness, job.roof[0].edges) == (None, None, ())
    assert (job.units, job.layout.aim, job.roof[0].start) == ("us", "least_cost", (0, 0))
    assert job.rules.ply_offset_ticks == 18 * INCH


@pytest.mark.parametrize(
    ("head", "paper"),
    [("", "letter"), ("units: metric\n", "a4"), ("units: metric\npaper: letter\n", "letter"), ("paper: a4\n", "a4")],
)
def test_paper_follows_units_unless_given(head: str, paper: str) -> None:
    """Letter for US units, A4 for metric ones."""
    assert read_job(head + SMALL, file="job.yaml").paper_size == paper


def test_rules_keep_their_origin() -> None:
    """A rule from the job file says so, another names its source."""
    origins = read_job('rules: {cant: 3 1/2"}\n' + SMALL, file="job.yaml").rules.origins
    assert (origins["rules.cant"].origin, origins["rules.cant"].text) == ("job file", '3 1/2"')
    assert origins["rules.end_lap_stagger"].origin == "published"


@pytest.mark.parametrize(
    ("typed", "form"),
    [
        ("E 9', N 9', W 9', S 9'", Walk),
        ("[[0', 0'], [9', 0'], [9', 9']]", Points),
        ("{dxf: plans/roof.dxf, layer: ROOF}", DxfOutline),
        ("{geojson: roof.geojson, feature: Main}", GeoJsonOutline),
    ],
)
def test_outline_has_four_forms(typed: str, form: type) -> None:
    """A walk, points, a layer, a feature."""
    text = SMALL.replace("E 120', N 64', W 120', S 64'", typed)
    assert isinstance(read_job(text, file="job.yaml").roof[0].outline, form)


def test_points_need_not_be_closed() -> None:
    """A last corner that repeats the first is the same outline."""
    text = SMALL.replace("E 120', N 64', W 120', S 64'", "[[0', 0'], [9', 0'], [9', 9'], [0', 0']]")
    assert read_job(text, file="j").roof[0].outline == Points(((0, 0), (9 * FOOT, 0), (9 * FOOT, 9 * FOOT)))


def test_walk_may_run_over_lines() -> None:
    """A walk goes on on the next line."""
    text = SMALL.replace("N 64', W", "N 64',\n      W")
    assert read_job(text, file="j").roof[0].outline == read_job(SMALL, file="j").roof[0].outline


def test_uplift_is_one_value_or_by_zone() -> None:
    """One value stands under "all"; zones keep the names of the wind standard."""
    one = read_job(SMALL.replace("assembly:\n", "assembly:\n  rated_uplift: 1 kPa\n"), file="j")
    zones = read_job(SMALL.replace("assembly:\n", "assembly:\n  rated_uplift: {1': 1 kPa, 3: 2 kPa}\n"), file="j")
    assert one.assembly.rated_uplift_pa == {"all": 1000}
    assert zones.assembly.rated_uplift_pa == {"1'": 1000, "3": 2000}
    assert read_job(SMALL, file="j").assembly.rated_uplift_pa == {}


def test_other_spellings_mean_the_same() -> None:
    """galvanized is galvanised, II is 2, yes is true."""
    text = SMALL.replace("    slope", "    edges: [{sides: 1, metal: {kind: galvanized}}]\n    slope")
    text = "building: {risk_category: II}\n" + text.replace("assembly:\n", "assembly:\n  deck: {nailable: yes}\n")
    job = read_job(text, file="j")
    metal = job.roof[0].edges[0].metal
    assert metal is not None
    assert job.assembly.deck is not None
    assert (metal.kind, job.building.risk_category, job.assembly.deck.nailable) == ("galvanised", 2, True)


def test_trailing_comments_pass() -> None:
    """A comment behind two spaces, or behind a value that is no free text, is a comment."""
    text = SMALL.replace("Main", "Main  # the low one").replace("1/4 in 12", "1/4 in 12 # measured")
    assert read_job(text, file="j").roof[0].area == "Main"


@pytest.mark.parametrize(
    ("path", "place"),
    [
        ("roof[0].slope", (5, 12, "1/4 in 12")),
        ("assembly.plies[1].sheet", (9, 25, "cap-sa")),
        ("sheets.cap-sa", (12, 11, "")),
        ("roof[0].pipes[2].at", (2, 5, "")),
        ("building.height", (1, 1, "")),
    ],
)
def test_place_finds_line_column_and_text(path: str, place: tuple[int, int, str]) -> None:
    """Counted in the file by hand; what is absent stands where the table above it begins."""
    assert read_job(SMALL, file="job.yaml").place(path) == place


def test_fault_of_a_path_stands_at_its_value() -> None:
    """Later rooms tell their faults at the line where the key was typed."""
    fault = read_job(SMALL, file="job.yaml").fault("roof[0].outline", needs="sides that do not cross", write="")
    assert (fault.file, fault.line, fault.column, fault.key) == ("job.yaml", 3, 14, "roof[0].outline")
    assert fault.read == "E 120', N 64', W 120', S 64'"


def test_sheet_names_may_hold_anything() -> None:
    """A name with dots, brackets or quotes has a path that is found again."""
    text = SMALL.replace("cap-sa", "'cap 4.0 \"x\" [b]'")
    job = read_job(text, file="job.yaml")
    assert job.place('sheets."cap 4.0 \\"x\\" [b]".width') == (12, 30, '39 3/8"')


def test_faults_stand_in_file_order() -> None:
    """Form and meaning are told together, from top to bottom."""
    text = SMALL.replace("1/4 in 12", "1/4").replace("falls: S", "falls: &x S").replace("sheet: cap-sa", "sheet: cap")
    with pytest.raises(Refused) as refused:
        read_job(text, file="job.yaml")
    assert [fault.line for fault in refused.value.faults] == [4, 5, 9]


def test_wrong_bytes_have_a_place() -> None:
    """A byte that is no UTF-8 is told with line and column."""
    with pytest.raises(Refused) as refused:
        job_text(b"job: {name: A}\r\nunits: m\xe9trique\n", file="job.yaml")
    assert refused.value.text() == (
        "job.yaml:2:9\n  read:   byte E9\n  needs:  a file saved as UTF-8 text\n  write:  the same text, saved as UTF-8"
    )


def test_reading_loads_no_heavy_library() -> None:
    """Checking a job file needs no geometry, no tables and no sun."""
    heavy = "numpy, shapely, pandas, scipy, pvlib, ezdxf, typst, xlsxwriter"
    code = f"import sys; import lapwright.job.reading; print([m for m in '{heavy}'.split(', ') if m in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"


METRES = """units: UNITS
roof: [{area: Main, outline: "E 36 m, N 20 m, W 36 m, S 20 m", falls: S, slope: 2 %}]
assembly: {plies: [{ply: base, sheet: b}, {ply: cap, sheet: c}]}
sheets:
  b: {width: 1000 mm, length: 20 m, side_lap: 100 mm, end_lap: 150 mm}
  c: {width: 1000 mm, length: 10 m, side_lap: 100 mm, end_lap: 150 mm}
"""


@pytest.mark.parametrize(
    ("units", "limit", "ticks", "usual"),
    [("metric", "449 mm", 449 * 80, "457.2 mm"), ("us", '17 11/16"', 283 * 127, '18"')],
)
def test_a_default_offset_gives_way_to_half_a_course(units: str, limit: str, ticks: int, usual: str) -> None:
    """900 mm courses leave 450 mm, less than 18 in; what is kept is half of them less what a step of the tape takes,
    17 11/16 in or whole millimetres of it, and says so.  The rule beside a rip stays.
    """
    rules = read_job(METRES.replace("UNITS", units), file="job.yaml").rules
    origin = rules.origins["rules.ply_offset"]
    assert (rules.ply_offset_ticks, origin.text, origin.default) == (ticks, limit, '18"')
    assert (
        origin.gave_way
        == f"not given, and its default of {usual} is more than half a course of b and c: {limit} is kept"
    )
    assert (rules.ply_offset_at_rip_ticks, origin.is_overridden) == (FOOT, False)


@pytest.mark.parametrize("rule", ['ply_offset: 18"', "ply_offset: 451 mm", 'ply_offset_at_rip: 18"'])
def test_a_typed_rule_never_gives_way(rule: str) -> None:
    """What the job file asks is refused where its sheets can't meet it, whether of every lap or beside a rip."""
    with pytest.raises(Refused) as found:
        read_job(METRES.replace("UNITS", "metric") + f"rules: {{{rule}}}\n", file="job.yaml")
    assert [fault.key for fault in found.value.faults] == ["rules.ply_offset"]


def test_a_default_offset_that_can_be_met_is_left_alone() -> None:
    """80 mm laps leave 460 mm, more than 18 in."""
    rules = read_job(METRES.replace("UNITS", "metric").replace("100 mm", "80 mm"), file="job.yaml").rules
    assert (rules.ply_offset_ticks, rules.origins["rules.ply_offset"].gave_way) == (18 * INCH, "")


@pytest.mark.parametrize(
    ("units", "prices", "expected"),
    [
        ("us", "{}", "$"),
        ("metric", "{}", ""),
        ("us", "{b: 145, c: €98}", "€"),
        ("metric", "{b: 145, c: 98}", ""),
        ("metric", "{b: 145 CAD, c: 98}", "CAD"),
    ],
)
def test_money_is_what_the_prices_say(units: str, prices: str, expected: str) -> None:
    """The first sign or letters; without any dollars in a US job, none in a metric one."""
    job = read_job(METRES.replace("UNITS", units).replace("100 mm", "80 mm") + f"prices: {prices}\n", file="job.yaml")
    assert job.currency == expected
