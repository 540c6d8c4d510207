"""Every file of a plan, read back with other programs' readers, says the same as plan.json."""

from __future__ import annotations

import csv
import hashlib
import json
import math
import re
from collections import Counter
from typing import Any

import ezdxf
import icalendar
import jsonschema
import openpyxl
import pytest
from ezdxf.bbox import extents
from planned_jobs import ROOT, Planned
from pypdf import PdfReader

NAMES = {
    "plan.json",
    "packet.pdf",
    "order.xlsx",
    "layout.dxf",
    "layout.svg",
    "hours.csv",
    "days.ics",
    "figures.html",
    "manifest.json",
}
OPERATIONS = ["primer", "base", "interply", "cap", "side_lap", "end_lap", "flashing", "mastic", "edge_metal"]


def pdf_text(planned: Planned) -> str:
    """All text of the packet, white space folded."""
    reader = PdfReader(planned.folder / "packet.pdf")
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split())


def sheet_rows(planned: Planned, name: str) -> list[tuple[object, ...]]:
    """The rows of a sheet of order.xlsx below its heading, without the total."""
    book = openpyxl.load_workbook(planned.folder / "order.xlsx")
    rows = list(book[name].iter_rows(min_row=4, values_only=True))
    return [row for row in rows if row[0] is not None and not str(row[0]).startswith("Total")]


def test_all_files_of_the_contract_are_there(planned: Planned) -> None:
    """The folder holds the files that are promised and no other."""
    assert {path.name for path in planned.folder.iterdir()} == NAMES


def test_manifest_names_every_file_with_its_hash(planned: Planned) -> None:
    """manifest.json lists each other file with the SHA-256 of its bytes."""
    listed = json.loads((planned.folder / "manifest.json").read_text(encoding="utf-8"))["files"]
    found = {entry["name"]: entry["sha256"] for entry in listed}
    hashes = {
        path.name: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in planned.folder.iterdir()
        if path.name != "manifest.json"
    }
    assert found == hashes


def test_plan_json_is_valid_by_its_published_schema(planned: Planned) -> None:
    """plan.json keeps to docs/plan.schema.json."""
    schema = json.loads((ROOT / "docs/plan.schema.json").read_text(encoding="utf-8"))
    assert list(jsonschema.Draft202012Validator(schema).iter_errors(planned.plan)) == []


def test_ids_named_anywhere_exist(planned: Planned) -> None:
    """Rolls, laps, T-joints, days and order lines name pieces, details, laps and rolls that are in the plan."""
    plan = planned.plan
    pieces = {piece["id"] for ply in plan["plies"] for piece in ply["pieces"]}
    details = {detail["id"] for detail in plan["details"]}
    laps = {lap["id"] for lap in plan["laps"]}
    rolls = {roll["id"] for roll in plan["rolls"]}
    cut = {id for roll in plan["rolls"] for id in roll["pieces"]}
    assert cut <= pieces | details
    assert pieces <= cut
    assert {id for lap in plan["laps"] for id in lap["pieces"]} <= pieces | details
    assert {id for joint in plan["tjoints"] for id in joint["laps"]} <= laps
    assert {id for day in plan["days"] for id in day["laps"]} <= laps
    assert {id for day in plan["days"] for id in day["pieces"]} <= pieces
    known = pieces | details | laps | rolls | {joint["id"] for joint in plan["tjoints"]}
    named = {id for line in plan["order"] for id in line["from"]}
    drains = {id for id in named - known if "/" in id}
    assert named - known == drains


def test_workbook_orders_what_the_plan_orders(planned: Planned) -> None:
    """order.xlsx lists the same items in the same numbers as plan.json."""
    written = [(row[0], row[3]) for row in sheet_rows(planned, "Order")]
    assert written == [(line["item"], line["ordered"]) for line in planned.plan["order"]]


def test_workbook_cuts_what_the_plan_cuts(planned: Planned) -> None:
    """The cut list has one row for each length cut, from the same roll."""
    written = Counter((row[0], row[3]) for row in sheet_rows(planned, "Cut list"))
    assert written == Counter((roll["id"], id) for roll in planned.plan["rolls"] for id in roll["pieces"])


def test_workbook_lists_every_part_that_no_roll_gives(planned: Planned) -> None:
    """Metal and parts are the plan's details without a roll, in its order."""
    written = [row[0] for row in sheet_rows(planned, "Metal and parts")]
    assert written == [one["id"] for one in planned.plan["details"] if not one["roll"]]


def test_workbook_lists_every_lap_and_tjoint(planned: Planned) -> None:
    """Laps to probe are those of the plan, T-joints included."""
    written = sorted(str(row[0]) for row in sheet_rows(planned, "Laps to probe"))
    plan = planned.plan
    assert written == sorted([lap["id"] for lap in plan["laps"]] + [joint["id"] for joint in plan["tjoints"]])


def test_no_user_text_became_a_formula(planned: Planned) -> None:
    """Formulas of order.xlsx are sums, products and counts of our own, none begins with a name of the job."""
    book = openpyxl.load_workbook(planned.folder / "order.xlsx")
    formulas = [str(cell.value) for page in book for row in page.iter_rows() for cell in row if cell.data_type == "f"]
    assert all(text.startswith(("=SUM", "=D", "=H", "=E", "=C")) for text in formulas)


def test_drawing_opens_clean_and_to_size(planned: Planned) -> None:
    """layout.dxf passes ezdxf's audit; its outlines are as large as the plan's, in the drawing's own units."""
    document = ezdxf.readfile(planned.folder / "layout.dxf")
    assert not document.audit().errors
    unit = {1: 0.0254, 6: 1.0}[document.header["$INSUNITS"]]
    box = extents(document.modelspace().query('LWPOLYLINE[layer=="ROOF-OUTLINE"]'))
    points = [point for area in planned.plan["areas"] for point in area["outline"]]
    width = max(x for x, _ in points) - min(x for x, _ in points)
    height = max(y for _, y in points) - min(y for _, y in points)
    assert box.size.x * unit == pytest.approx(width, abs=1e-3)
    assert box.size.y * unit == pytest.approx(height, abs=1e-3)


def test_drawing_has_every_piece_end_lap_and_tjoint(planned: Planned) -> None:
    """Each ply's layers hold as many pieces, end laps and T-joints as the plan."""
    space = ezdxf.readfile(planned.folder / "layout.dxf").modelspace()
    counts = Counter(entity.dxf.layer for entity in space if entity.dxftype() in ("LWPOLYLINE", "LINE", "CIRCLE"))
    plan = planned.plan
    for ply in {ply["ply"] for ply in plan["plies"]}:
        name = ply.upper()
        pieces = sum(len(each["pieces"]) for each in plan["plies"] if each["ply"] == ply)
        assert counts[f"{name}-PIECES"] == pieces
        ends = [lap for lap in plan["laps"] if lap["kind"] == "end" and lap["ply"] == ply]
        assert counts[f"{name}-END-LAPS"] >= len(ends)
        assert counts[f"{name}-TJOINTS"] == sum(1 for joint in plan["tjoints"] if joint["ply"] == ply)


def piece_name(ply: dict[str, Any], piece: dict[str, Any]) -> str:
    """A piece as the cut list names it, without spaces."""
    return f"{ply['area']}{ply['ply']}{piece['course']}.{piece['place']}".replace(" ", "")


def is_listed(listed: str, roll: dict[str, Any], names: dict[str, str]) -> bool:
    """The roll's number stands before what is cut from it first: among rolls cut alike, or with its size between."""
    number = roll["id"].rpartition(" ")[2]
    return re.search(rf"(?<!\d){number}(:|[^;]*?){re.escape(names[roll['pieces'][0]])}", listed) is not None


def test_packet_says_what_the_plan_says(planned: Planned) -> None:
    """The packet's text has the job, the counts on its cover, each day, each roll and each check."""
    text, plan = pdf_text(planned), planned.plan
    pieces = sum(len(ply["pieces"]) for ply in plan["plies"])
    assert plan["job"]["number"] in text
    assert f"{pieces} pieces" in text
    assert f"{len(plan['rolls'])} numbered rolls" in text
    assert [day["number"] for day in plan["days"] if f"Day {day['number']}" not in text] == []
    squeezed = text.replace(" ", "")
    names = {piece["id"]: piece_name(ply, piece) for ply in plan["plies"] for piece in ply["pieces"]}
    names |= {detail["id"]: detail["of"].replace(" ", "") for detail in plan["details"]}
    listed = squeezed[squeezed.index("Cutlistbyroll", squeezed.index("Cautions")) :]
    assert [roll["id"] for roll in plan["rolls"] if not is_listed(listed, roll, names)] == []
    assert [check["title"] for check in plan["checks"] if check["title"].replace(" ", "") not in squeezed] == []


def test_cover_and_last_line_count_the_same_verdicts(planned: Planned) -> None:
    """The terminal's last line and plan.json count the same passed, failed and unknown checks; the status follows."""
    counts = Counter(check["status"] for check in planned.plan["checks"])
    last = planned.done.stdout.strip().splitlines()[-1]
    assert last == f"checks: {counts['pass']} passed, {counts['fail']} failed, {counts['unknown']} unknown"
    assert planned.done.returncode == (1 if counts["fail"] else 0)


def test_hours_have_one_row_an_hour_and_reasons_for_what_is_shut(planned: Planned) -> None:
    """8760 rows, columns as promised; an hour with something shut says why, one with nothing shut does not."""
    with (planned.folder / "hours.csv").open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    plies = {ply["ply"] for ply in planned.plan["plies"]}
    assert len(rows) == (8760 if rows else 0)
    for row in rows:
        states = {operation: row[operation] for operation in OPERATIONS}
        assert set(states.values()) <= {"open", "warm", "heat", "shut", ""}
        assert ("shut" in states.values()) == bool(row["why"])
        assert [bool(states[ply]) for ply in ("base", "interply", "cap")] == [
            ply in plies for ply in ("base", "interply", "cap")
        ]


def test_days_fall_on_hours_that_are_fit(planned: Planned) -> None:
    """Every piece and every lap is put down on exactly one day."""
    plan = planned.plan
    laid = Counter(id for day in plan["days"] for id in day["pieces"])
    closed = Counter(id for day in plan["days"] for id in day["laps"])
    assert set(laid.values()) <= {1}
    assert set(closed.values()) <= {1}
    if plan["days"]:
        assert set(laid) == {piece["id"] for ply in plan["plies"] for piece in ply["pieces"]}
        assert set(closed) == {lap["id"] for lap in plan["laps"]}


def test_calendar_has_an_event_a_dated_day(planned: Planned) -> None:
    """days.ics reads as a calendar with one event for each dated crew day."""
    calendar = icalendar.Calendar.from_ical((planned.folder / "days.ics").read_bytes())
    dates = [event["DTSTART"].dt.isoformat() for event in calendar.walk("VEVENT")]
    assert dates == [day["date"] for day in planned.plan["days"] if day["date"]]


def test_rolls_are_not_overdrawn(planned: Planned) -> None:
    """Used and left of each roll add up to the length of its sheet, and what is left is never negative."""
    plan = planned.plan
    length = {name: sheet["length"] for name, sheet in plan["sheets"].items()}
    for roll in plan["rolls"]:
        assert math.isclose(roll["used"] + roll["left"], length[roll["sheet"]], abs_tol=1e-9)
        assert roll["left"] >= 0
