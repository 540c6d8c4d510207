"""Rules, order and checks in the words and units of the job."""

import dataclasses

from papers import HEAD, order, shed

from lapwright.defaults.values import Origin
from lapwright.packet.drawing import Text
from lapwright.packet.pages.backing import check_page, rule_row
from lapwright.packet.pages.lists import order_row
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.plates import hour_sheets
from lapwright.verdict import Check, Step, unknown

METRIC = open_book(shed(head=dataclasses.replace(HEAD, units="metric")))
US = open_book(shed())


def test_a_default_is_told_in_the_jobs_units() -> None:
    """18 in are 457.2 mm by definition; a US job reads what the source prints."""
    origin = Origin("rules.ply_offset", '18"', '18"', "common practice", "common practice, no source", "why")
    assert rule_row(METRIC, origin) == ("ply_offset", "457.2 mm", "same", "common practice", "no source; why")
    assert rule_row(US, origin)[1] == '18"'


def test_a_default_that_gave_way_is_told_with_what_is_kept() -> None:
    """Both the value in force and the default stand there, and why; the origin stays that of the default."""
    origin = Origin("rules.ply_offset", "449 mm", '18"', "common practice", "no source", "why", gave_way="kept less")
    assert rule_row(METRIC, origin) == (
        "ply_offset",
        "449 mm",
        "457.2 mm",
        "common practice",
        "no source; why; kept less",
    )


def test_what_the_job_file_gives_stands_as_typed() -> None:
    """A metric job whose margin is typed in °F keeps it; the default beside it is a difference of 2.8 K."""
    origin = Origin("rules.dew_point_margin", "9 F", "5 F", "job file", "the job file")
    assert rule_row(METRIC, origin)[1:3] == ("9 F", "2.8 K")


def test_a_rate_of_the_job_file_is_named_once() -> None:
    """`the job file`, not `job file, the job file`; a default of 10 ft is 3.048 m in a metric job."""
    given = Origin("materials.primer.coverage", "5 m²/L", "200 sf/gal", "job file", "the job file")
    usual = Origin("fasten.metal_length", "10 ft", "10 ft", "common practice", "common practice, no source")
    line = dataclasses.replace(order()[0], basis="counted")
    assert order_row(METRIC, dataclasses.replace(line, rate=given), priced=False)[3] == (
        "counted. Rate 5 m²/L: the job file"
    )
    assert order_row(METRIC, dataclasses.replace(line, rate=usual), priced=False)[3] == (
        "counted. Rate 3.048 m: common practice, no source"
    )


def test_what_to_supply_is_said_once() -> None:
    """The keys stand on the line `To supply`, not in a note as well."""
    page = check_page(US, unknown("x", "a check", ["site.rain_secondary"]))
    assert page["supply"] == "site.rain_secondary"
    assert page["notes"] == []


def test_a_note_ends_with_one_stop() -> None:
    """The template sets the full stop: a caution that ends with its own has none left."""
    check = Check("x", "a check", "pass", steps=(Step("One tool to a circuit."),))
    assert check_page(US, check)["notes"] == ["One tool to a circuit"]


def test_a_picture_of_several_operations_names_them_all() -> None:
    """The title in the drawing is that of the title block."""
    plates = hour_sheets(shed())
    assert len(plates) == 2
    assert all(plate.title in [item.text for item in plate.items if isinstance(item, Text)] for plate in plates)
