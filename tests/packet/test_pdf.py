"""packet.pdf as a PDF reader sees it: which sheets, in which order, with what on them."""

import dataclasses
import io
import math
import re
from functools import cache

import pypdf
import pytest
from papers import CREW, HEAD, METRE, checks, days, order, shed, shed_layout

from lapwright.crew.values import CrewDay, Task
from lapwright.packet.pages.day import tie_off
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pdf import packet_pdf
from lapwright.packet.plates import Plates, make_plates
from lapwright.packet.values import Paper

POINTS = 72 / 25.4
BLOCK = re.compile(r"Page (\d+)\s+of (\d+)\s*$")


def reader(paper: Paper, plates: Plates | None = None) -> pypdf.PdfReader:
    """The packet, read."""
    return pypdf.PdfReader(io.BytesIO(packet_pdf(paper, make_plates(paper) if plates is None else plates)))


@cache
def shed_reader() -> pypdf.PdfReader:
    """The shed's packet, made once for all tests that only read it."""
    return reader(shed())


def words(page: pypdf.PageObject) -> str:
    """The text of a page with its white space evened out."""
    return " ".join(page.extract_text().replace("\u200b", "").split())


def sheet(found: pypdf.PdfReader, title: str) -> str:
    """The text of all pages whose title block names a sheet."""
    pages = [words(page) for page in found.pages]
    return " ".join(text for text in pages if re.search(rf"Revision A( 1 Dec 2026)? {re.escape(title)} Page \d", text))


def text_sizes(page: pypdf.PageObject) -> list[float]:
    """The size of every text on a page [pt], scaling included."""
    sizes: list[float] = []

    def visit(text: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(size * math.hypot(tm[0] * cm[0] + tm[1] * cm[2], tm[0] * cm[1] + tm[1] * cm[3]))

    page.extract_text(visitor_text=visit)
    return sizes


def test_sheets_stand_in_the_promised_order() -> None:
    """Cover, day sheets, drawings, lists, notes, rules, and the checks last."""
    pages = [words(page) for page in shed_reader().pages]
    titles = [re.findall(r"Revision A 1 Dec 2026 (.*) Page \d+ of \d+$", text)[0] for text in pages]
    kinds = [re.sub(r"^\d+ .*", "a detail", re.sub(r"^Hours: .*", "hours", title)) for title in titles]
    assert list(dict.fromkeys(kinds)) == [
        *("Cover", "Day 1", "Day 2", "Base ply", "Cap ply", "All plies", "Key plan", "Details in place", "a detail"),
        *("Cost and choice", "Chalk lines", "Cut list by roll", "Metal, cant and parts", "Order", "hours"),
        *("Notes on the input", "Rules in force", "Calculation sheets"),
    ]


def test_equal_years_share_a_picture() -> None:
    """Primer, base and mastic of the shed have the same hours, as have cap and laps: two pictures for six."""
    pages = [words(page) for page in shed_reader().pages]
    found = [match.group(1) for text in pages if (match := re.search(r"2026 Hours: (.*) Page", text))]
    assert found == ["primer, base, mastic", "cap, side lap, end lap"]


def test_every_page_says_which_it_is_and_of_how_many() -> None:
    """The title block counts from 1 to the number of pages, and names the job on each."""
    pages = [words(page) for page in shed_reader().pages]
    counts = [tuple(map(int, BLOCK.findall(text)[-1])) for text in pages]
    assert counts == [(number, len(pages)) for number in range(1, len(pages) + 1)]
    assert all("Shed Job 7-001 Revision A 1 Dec 2026" in text for text in pages)


@pytest.mark.parametrize(("paper", "size"), [("letter", (215.9, 279.4)), ("a4", (210.0, 297.0))])
def test_paper_size(paper: str, size: tuple[float, float]) -> None:
    """Text stands upright on letter or A4; the plan of a roof wider than high lies across."""
    found = reader(shed(head=dataclasses.replace(HEAD, paper=paper)))
    boxes = [(page.mediabox.width / POINTS, page.mediabox.height / POINTS) for page in found.pages]
    plans = ["Base ply Page" in words(page) for page in found.pages]
    assert boxes[0] == pytest.approx(size, abs=0.1)
    assert boxes[plans.index(True)] == pytest.approx(size[::-1], abs=0.1)


def test_cover_counts_checks_and_names_the_open_ones() -> None:
    """One of each verdict; the failed check by title, the unknown one with what to supply."""
    cover = sheet(shed_reader(), "Cover")
    assert "1 FAIL 1 UNKNOWN 1 PASS" in cover
    assert "FAIL Pallet on the deck" in cover
    assert "UNKNOWN Overflow to supply: site.rain_secondary" in cover
    assert "Uplift in the field" not in cover


def test_cover_carries_the_cautions() -> None:
    """Height, hot work, loads, power, structure, and who decides."""
    cover = sheet(shed_reader(), "Cover")
    for caution in ("Work at height.", "Hot work.", "Roof loads.", "Power.", "Structure.", "Who decides."):
        assert caution in cover
    assert (
        "Local code, the maker's written instructions and licensed practice go before anything in this packet." in cover
    )


def test_cover_says_what_the_job_comes_to() -> None:
    """Counted by hand on the shed: 5 pieces, 2 detail lengths, 3 rolls, 4 laps, 1 T-joint; two lines cost 120.25."""
    cover = sheet(shed_reader(), "Cover")
    assert "5 pieces and 2 detail lengths from 3 numbered rolls; 4 laps and 1 T-joint to probe." in cover
    assert "2 crew days, Mon 11 Jan 2027 to Tue 12 Jan 2027; 1 day with hot work." in cover
    assert "Order: 2 of 4 lines priced, $120.25." in cover


def test_day_sheet_shows_both_dates_and_both_times() -> None:
    """The job's date, the weather's date, the elapsed time and the time at the tool of a task."""
    day = sheet(shed_reader(), "Day 1")
    assert "Day 1, Mon 11 Jan 2027" in day
    assert "Worked out on the weather of Sun 11 Jan 1998 (made-up): not a forecast." in day
    assert "09:00 cap, heat 5 2 h 40 min 10 min" in day


def test_day_sheet_lists_pieces_and_laps() -> None:
    """Cut lengths as given, rips marked by their width, laps by course; 6.01 m is 19' 8 5/8", 0.5 m 19 11/16"."""
    day = sheet(shed_reader(), "Day 1")
    assert '1 1.1 base-sa 1 19\' 8 1/4" 19 11/16"' in day
    assert "2 2.1 base-sa 1 19' 8 5/8\" full" in day
    assert "4 1.2, 1 cut cap-sa 1 6' 6 3/4\" full" in day
    assert "Main base 1 side 1 to 2 19' 8 1/4\"" in day
    assert "Main cap 1 end 1, 1 T 3' 3 3/8\"" in day


def test_readings_have_their_limits_beside() -> None:
    """10 °C is 50 °F and -6.67 °C 20 °F by definition; margins and wind are the rules' defaults."""
    day = sheet(shed_reader(), "Day 1")
    assert (
        "Air base 50 °F or over, 20 °F with warm rolls; cap 50 °F or over, 20 °F with warm rolls and welded laps" in day
    )
    assert "Surface less dew point at least 5 °F; dry, no frost" in day
    assert "Wind no sheet goods handled above 20 mph" in day
    assert "Gusts everybody stops above 30 mph" in day
    assert "Base last wet or frosted over 24 h ago, else dried and measured" in day


def test_tug_test_stands_where_the_contact_is_cold_only() -> None:
    """3 °C (37.4 °F) under 50 °F asks for it, 12 °C does not, and a temperature that is not known asks for it too."""
    test = (
        "Tug-test the first sheet and after each 10 °F drop; no bond means stop, or heat sheet and surface at the roll "
        "only if the maker allows it."
    )
    day = sheet(shed_reader(), "Day 1")
    assert f"cap: 37.4 °F at first touch, under 50 °F. {test}" in day
    assert "base 53.6 °F at first touch, not under the limit." in day
    assert f"cap: contact temperature at first touch not known. {test}" in sheet(shed_reader(), "Day 2")


def test_limits_that_hold_for_one_of_the_two_only() -> None:
    """Where the maker's limits hold for the surface, the air is noted and has no limit."""
    rules = dataclasses.replace(shed().rules, limits_hold_for="surface")
    day = sheet(reader(shed(rules=rules)), "Day 1")
    assert "Air to be noted; this sheet's limits do not hold for it Surface to be covered base 50 °F or over" in day


def test_hot_work_lines_on_days_with_welding_only() -> None:
    """Permit, extinguishers, the end of welding and of the watch one hour later, the boards under the laps."""
    day, other = sheet(shed_reader(), "Day 1"), sheet(shed_reader(), "Day 2")
    assert "Hot work today. Permit number" in day
    assert "Extinguishers: how many" in day
    assert "Welding stops at 15:30. Fire watch until 16:30 (60 min, as given in the job file)." in day
    assert "Under the laps: insulation polyiso, deck concrete." in day
    assert "Hot work" not in other


def test_walls_and_openings_near_todays_laps() -> None:
    """The laps run from side to side at 0.4 m and at x = 4 m: the hatch, 1 m to 1.5 m up, is 0.6 m off, 24".

    The end lap ends at 1 m, 0.9 m under the wall at 1.9 m: 35".
    """
    day = sheet(shed_reader(), "Day 1")
    near = day.partition("Within 35' of today's laps: look at sides, vents and below Burns? Covered by")[2]
    assert near.startswith(' walls Main parapet side 2 0"; wall side 3 2\' 11" openings Main H-1 2\' 0" ')


def test_without_a_fire_watch_no_lap_is_welded() -> None:
    """The fire watch has no silent default: its absence is said where the watch would stand."""
    day = sheet(reader(shed(crew=dataclasses.replace(CREW, fire_watch_s=None))), "Day 1")
    assert "Fire watch: not given (crew.fire_watch). No lap is welded until the longest of code, owner and" in day


def test_tie_off_is_told_with_its_ends() -> None:
    """6 m and 1 m of tie-off from the west edge to the corner and down the east edge; a day without says so."""
    assert "Tie-off 22' 11 9/16\", made on its high side so that water passes over it" in sheet(shed_reader(), "Day 1")
    assert 'E 0", N 3\' 3" to E 19\' 8", N 3\' 3": 19\' 8 1/4"' in sheet(shed_reader(), "Day 1")
    assert "No tie-off: the day ends at a finished edge." in sheet(shed_reader(), "Day 2")


def test_tie_off_far_from_the_origin_is_told_from_a_corner() -> None:
    """The drawing's origin lies 30 m west and 10 m south of the shed: nobody can tape from there, but from a side."""
    off = (30 * METRE, 10 * METRE)

    def moved(point: tuple[int, int]) -> tuple[int, int]:
        return (point[0] + off[0], point[1] + off[1])

    paper = shed()
    area = paper.areas[0]
    edges = tuple(dataclasses.replace(each, start=moved(each.start), end=moved(each.end)) for each in area.edges)
    far = dataclasses.replace(area, outline=tuple(moved(corner) for corner in area.outline), edges=edges)
    day = dataclasses.replace(days()[0], tie_off=(((30.0, 11.0), (36.0, 11.0)), ((36.0, 11.0), (36.0, 10.0))))
    told = tie_off(open_book(dataclasses.replace(paper, areas=(far,))), day)
    assert told[2] == 'E 19\' 8", N 3\' 3" to E 19\' 8", N 0": 3\' 3 3/8"'
    assert told[1] == 'From where side 1 of Main begins: E 0", N 3\' 3" to E 19\' 8", N 3\' 3": 19\' 8 1/4"'


def test_day_sheets_are_ten_points_or_more() -> None:
    """No text on a day sheet is smaller than 10 pt, drawings and title block included."""
    pages = [page for page in shed_reader().pages if re.search(r"2026 Day \d Page", words(page))]
    assert 2 <= len(pages) <= 4
    assert min(size for page in pages for size in text_sizes(page)) >= 9.99


def heavy_day(pieces: int, tasks: int) -> CrewDay:
    """A day that no crew could do: as many pieces, tasks, tie-offs and things lost as asked."""
    day = days()[0]
    work = tuple(
        Task(f"task number {n} with a long name of its own", (), 420 + n, 480 + n, "heat", 4) for n in range(tasks)
    )
    return dataclasses.replace(
        day,
        pieces=tuple(f"Main/cap/{n:02d}/1" for n in range(1, pieces + 1)),
        laps=tuple(f"lap {n}" for n in range(pieces)),
        tasks=work,
        lost=tuple(f"a reason for losing time, number {n}, told at some length" for n in range(12)),
        tie_off=tuple(((0.0, float(n)), (6.0, float(n))) for n in range(25)),
        contact_c={"base": None, "cap": None},
    )


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize(("pieces", "tasks"), [(0, 0), (8, 6), (40, 12), (90, 30), (400, 60)])
def test_a_day_never_takes_a_third_page(paper: str, pieces: int, tasks: int) -> None:
    """However much stands in a day, its sheet is one page or both its sides; what is left out stands at length."""
    layout = shed_layout()
    like = layout.plies[1].pieces[2]
    many = tuple(
        dataclasses.replace(like, id=f"Main/cap/{n:02d}/1", course=n, sequence=n, roll=f"cap-sa {n}")
        for n in range(1, pieces + 1)
    )
    laps = tuple(
        dataclasses.replace(layout.laps[1], id=f"lap {n}", pieces=(one.id, one.id)) for n, one in enumerate(many)
    )
    cap = dataclasses.replace(layout.plies[1], pieces=many)
    whole = dataclasses.replace(layout, plies=(layout.plies[0], cap), laps=laps, tjoints=())
    paper_ = shed(
        layout=whole, days=(heavy_day(pieces, tasks),), head=dataclasses.replace(HEAD, paper=paper), checks=(), order=()
    )
    found = reader(paper_, Plates(days=make_plates(shed(head=paper_.head)).days))
    pages = [words(page) for page in found.pages]
    day = [text for text in pages if "2026 Day 1 Page" in text]
    assert len(day) <= 2
    assert (": see Days at length" in " ".join(day)) == (pieces > 8)
    told = " ".join(day) + sheet(found, "Days at length")
    assert {int(n) for n in re.findall(r"\b(\d+)\.1 cap-sa \1 ", told)} == set(range(1, pieces + 1))
    assert {int(n) for n in re.findall(r"task number (\d+) with", told)} == set(range(tasks))
    assert {int(n) for n in re.findall(r"losing time, number (\d+),", told)} == set(range(12))


def test_days_that_fit_are_not_told_twice() -> None:
    """The shed's days fit their sheets: there are no days at length."""
    assert sheet(shed_reader(), "Days at length") == ""


def test_chalk_lines_count_from_one_datum() -> None:
    """Base lines at 0 and 0.4 m: 1' 3 3/4" from the datum, not from the line below; the tolerance stands beside."""
    chalk = sheet(shed_reader(), "Chalk lines")
    assert '1 0" 1\' 7 11/16" 15 3/4" rip to 19 11/16"' in chalk
    assert '2 1\' 3 3/4" 4\' 7 1/8" 39 3/8" full ± 3/16"' in chalk
    assert "Given way: narrow top." in chalk


def test_cut_list_has_every_cut_of_every_roll() -> None:
    """Lengths as given, in cutting order, with what is left: 20 m less 6, 6.01 and 6 m leaves 1.99 m, 6' 6 3/8"."""
    cuts = sheet(shed_reader(), "Cut list by roll")
    base = '1 19\' 8 1/4" × 19 11/16" Main base 1.1; 19\' 8 5/8" Main base 2.1; 19\' 8 1/4" × 8 7/8" Main strip: side 1'
    assert f"{base} 6' 6 3/8\"" in cuts
    assert "1 13' 7 3/8\" Main cap 1.1; 6' 6 3/4\" Main cap 1.2 12' 7 9/16\"" in cuts


def test_like_lengths_of_a_detail_share_a_row() -> None:
    """Three flashings of one size from one roll are told once with their count, then what is left."""
    layout = shed_layout()
    strip = dataclasses.replace(layout.details[0], takes_ticks=80_000)
    details = tuple(dataclasses.replace(strip, id=f"Main/side 2/base flashing {n}") for n in (1, 2, 3))
    roll = dataclasses.replace(layout.rolls[0], pieces=tuple(d.id for d in details), used=240_000, left=1_360_000)
    found = reader(shed(layout=dataclasses.replace(layout, details=details, rolls=(roll,)), days=()))
    cuts = sheet(found, "Cut list by roll")
    assert '1 3 of 3\' 3 3/8" × 8 7/8" Main base flashing: side 1 1-3 55\' 9 5/16"' in cuts


def test_long_lists_repeat_their_headings() -> None:
    """A cut list of 300 rolls that differ has its headings on every page, and every roll on some page."""
    layout = shed_layout()
    roll = layout.rolls[2]
    rolls = tuple(dataclasses.replace(roll, id=f"cap-sa {n}", pieces=(f"x{n}",) * 9) for n in range(1, 301))
    found = reader(shed(layout=dataclasses.replace(layout, rolls=rolls), days=()))
    pages = [text for text in map(words, found.pages) if "2026 Cut list by roll Page" in text]
    assert len(pages) > 3
    assert all("What is cut from it, in order" in text for text in pages)
    told = dict.fromkeys(int(n) for text in pages for n in re.findall(r"x(\d+)\b", text))
    assert list(told) == list(range(1, 301))


def test_order_tells_the_rate_and_its_origin() -> None:
    """Each line with what is ordered, what is needed, the arithmetic and where the rate comes from."""
    text = sheet(shed_reader(), "Order")
    assert (
        "mastic 3 tubes 14.25 tubes 14.25 m of bead. Rate 6 m of bead a tube: common practice, no source 21.75" in text
    )
    assert "All priced lines 120.25" in text


def test_notes_tell_what_was_mended() -> None:
    """The walk's misclosure and each leg's change, what was mended in a drawing and in the weather."""
    notes = sheet(shed_reader(), "Notes on the input")
    assert "made-up: a cosine. 8760 hours, 1 without a reading (shut), 0 with a reading bridged over a gap." in notes
    assert "hour 101: no reading; left shut" in notes
    assert 'Main: the walk misses its start by E 1/16", N 0" in 52\' 5 15/16". Changed: side 1 by E 0", N 0".' in notes
    assert "roof.dxf layer ROOF a gap of 2 mm closed" in notes


def test_rules_mark_what_the_job_overrides() -> None:
    """The override in force stands beside its default and says job file; a default says where it comes from."""
    rules = sheet(shed_reader(), "Rules in force")
    assert "1 of the values, in bold, are from the job file" in rules
    assert 'ply_offset 16" 18" job file' in rules
    assert 'cut_step 1/2" same common practice no source' in rules


def test_checks_show_their_steps() -> None:
    """Asked and given in the job's units, formula, numbers put in, result in both, verdict, source, who confirms."""
    text = sheet(shed_reader(), "Calculation sheets")
    assert "PASS Uplift in the field wind.uplift Asked 32 psf Given 44.9 psf What is reckoned" in text
    assert "Velocity pressure q = 0.613 V² V_m_s = 50; terrain = C 1532.5 Pa = 32 psf" in text
    assert "Verdict pass: asked 32 psf, given 44.9 psf Source a code Confirmed by the designer" in text
    assert "UNKNOWN Overflow drain.overflow To supply site.rain_secondary" in text
    assert "Verdict no verdict until what is missing is supplied" in text
    assert text.count("Formula") == 1


HOSTILE = '#panic("x") *b* _i_ $x^2$ <lab> @ref \\ // no /* c */ [x] `raw` = h - "q" ~ -- ... \' {{ #include "a.typ"'


def test_typed_text_is_never_markup() -> None:
    """Marks that templates would act on appear as typed wherever people's text goes."""
    check = dataclasses.replace(checks()[0], id=HOSTILE, title=HOSTILE, source=HOSTILE, confirm=HOSTILE, status="fail")
    line = dataclasses.replace(order()[0], item=HOSTILE, basis=HOSTILE)
    day = dataclasses.replace(days()[0], lost=(HOSTILE,), tasks=(Task(HOSTILE, (), 420, 480, "heat", 2),))
    found = reader(
        shed(
            head=dataclasses.replace(HEAD, name=HOSTILE),
            checks=(check,),
            order=(line,),
            days=(day,),
            warnings=(("x", HOSTILE),),
        )
    )
    text = " ".join(words(page) for page in found.pages)
    told = [len(re.findall(r"#panic", words(page))) for page in found.pages]
    assert text.count(" ".join(HOSTILE.split())) >= 6
    assert min(told) >= 1


@pytest.mark.parametrize("name", ["x" * 3000, "", "\x00\x07\u202e", "屋根 🏠", "a\nb\tc", "é" * 60])
def test_any_name_makes_a_packet(name: str) -> None:
    """Long, empty, control and wide letters neither stop the packet nor push the title block off its line."""
    found = reader(shed(head=dataclasses.replace(HEAD, name=name, number=name, revision=name), days=(), checks=()))
    pages = [words(page) for page in found.pages]
    assert all(BLOCK.search(text) for text in pages)


def test_same_bytes_the_jobs_date_and_the_packages_fonts() -> None:
    """Two makings are equal; the only date is the job's; every font is Inter or Routed Gothic, and embedded."""
    plates = make_plates(shed())
    first = packet_pdf(shed(), plates)
    assert first == packet_pdf(shed(), plates)
    found = pypdf.PdfReader(io.BytesIO(first))
    assert str(found.metadata.creation_date)[:10] == "2026-12-01"
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in found.pages
        for font in page["/Resources"].get("/Font", {}).get_object().values()
    }
    assert {re.sub(r"^/[A-Z]{6}\+", "", name).partition("-")[0].removesuffix("Narrow") for name in fonts} <= {
        "Inter",
        "RoutedGothic",
    }


def test_an_empty_job_still_makes_a_packet() -> None:
    """No weather, days, checks or order: the cover says so and no sheet is missing its title block."""
    found = reader(shed(hours=None, days=(), checks=(), order=(), crew=None, closures=(), mended=(), settings=()))
    cover = sheet(found, "Cover")
    assert "No crew days: the job names no weather or no crew." in cover
    assert "The job names no weather" in sheet(found, "Notes on the input")
    assert "Nothing is ordered." in sheet(found, "Order")


def test_metric_packet() -> None:
    """A metric job's sheets are in millimetres, metres, °C and kPa."""
    found = reader(shed(head=dataclasses.replace(HEAD, units="metric")))
    assert "2 400 mm 1400 mm 1000 mm full ± 5 mm" in sheet(found, "Chalk lines")
    assert "cap: 3 °C at first touch, under 10 °C. Tug-test the first sheet and after each 5.6 K drop" in sheet(
        found, "Day 1"
    )
    assert "Asked 1.53 kPa Given 2.15 kPa" in sheet(found, "Calculation sheets")
