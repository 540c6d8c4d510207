"""Keys and items come, go and move, each on lines of its own; comments and every other character stay."""

from __future__ import annotations

import difflib

import pytest
from jobs import EXAMPLE, SMALL

from lapwright.faults import Refused
from lapwright.job.edit import set_many
from lapwright.job.edits.adding import add_item
from lapwright.job.edits.dropping import drop_value
from lapwright.job.edits.moving import move_item
from lapwright.job.edits.newjob import new_job
from lapwright.job.reading import read_job

CURB = {"name": "RTU-2", "kind": "curb", "at": "E 60' N 20'", "size": "E 8' x N 6'", "height": '8"'}


def changed(before: str, after: str) -> list[str]:
    """Lines taken out and put in."""
    lines = difflib.unified_diff(before.splitlines(), after.splitlines(), lineterm="", n=0)
    return [line for line in lines if not line.startswith(("---", "+++", "@@"))]


def refusal(call: object, *given: object) -> str:
    """What a person is told."""
    with pytest.raises(Refused) as refused:
        call(*given)  # type: ignore[operator]  # any of the edits
    return refused.value.text()


@pytest.mark.parametrize(
    ("before", "path", "after"),
    [
        ("a: 1\nb: 2  # own\nc: 3\n", "b", "a: 1\nc: 3\n"),
        ("a: 1\n# above\nb: 2\n# below\n", "b", "a: 1\n# above\n# below\n"),
        ("a: 1\nb:  # own\n  c: 2\n  # within\n  d: 3  # own too\n# below\n", "b", "a: 1\n# below\n"),
        ("a: 1\nb: 2", "b", "a: 1\n"),
        ('rules:  # ours\n  cant: 4"  # own\nb: 2\n', "rules.cant", "rules: {}  # ours\nb: 2\n"),
        ("weather: {year: greensboro}  # own\nb: 2\n", "weather.year", "b: 2\n"),
        ("a: {b: 1, c: 2, d: 3}\n", "a.b", "a: {c: 2, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}\n", "a.c", "a: {b: 1, d: 3}\n"),
        ("a: {b: 1, c: 2, d: 3}  # kept\n", "a.d", "a: {b: 1, c: 2}  # kept\n"),
        ("a: {b: 1}  # kept\n", "a.b", "a: {}  # kept\n"),
        ("a: {b: 1,  # kept\n    c: 2}\n", "a.c", "a: {b: 1  # kept\n    }\n"),
        ("a: {b: 1,\n    c: 2}\n", "a.c", "a: {b: 1}\n"),
        ("a: {b: 1,\n    c: 2}\n", "a.b", "a: {c: 2}\n"),
        ("a:\n  {b: 1,\n   c: 2,  # own\n   d: 3}\n", "a.c", "a:\n  {b: 1,\n   d: 3}\n"),
        ("a:\n  - b: 1  # own\n    c: 2\n", "a[0].b", "a:\n  - c: 2\n"),
        ("a:\n  - b: 1\n    # kept\n    c: 2\n", "a[0].b", "a:\n  -\n    # kept\n    c: 2\n"),
        ("a:\n  - b: 1\n", "a[0].b", "a:\n  - {}\n"),
        ("a:\n  - b: 1  # own\n  # kept\n  - c: 2\n", "a[0]", "a:\n  # kept\n  - c: 2\n"),
        ("a:\n- b\n- c\n", "a[1]", "a:\n- b\n"),
        ("x: 1\nopenings:  # own\n  # kept\n  - {name: A}\ny: 2\n", "openings[0]", "x: 1\ny: 2\n"),
        ("sides: [1, 2-4]\n", "sides[0]", "sides: [2-4]\n"),
        ("a: [  # kept\n  1,  # kept too\n  2   # own\n]\n", "a[1]", "a: [  # kept\n  1  # kept too\n]\n"),
        ("a: 1\n", "a", ""),
    ],
)
def test_a_value_is_dropped(before: str, path: str, after: str) -> None:
    """With its lines and the comment behind it; comments on other lines stay."""
    assert drop_value(before, path) == after


@pytest.mark.parametrize(
    ("path", "values", "lines"),
    [
        (
            "roof[0].openings",
            CURB,
            ["+      - {name: RTU-2, kind: curb, at: E 60' N 20', size: E 8' x N 6', height: 8\"}"],
        ),
        (
            "roof[0].edges",
            {"sides": ["1", "3"], "kind": "wall"},
            ["+      - {sides: [1, 3], kind: wall}"],
        ),
        (
            "roof[0].planes",
            {"plane": "A", "outline": "E 9', N 9', W 9', S 9'", "falls": "S"},
            ["+    planes:", "+      - plane: A", "+        outline: E 9', N 9', W 9', S 9'", "+        falls: S"],
        ),
        (
            "roof",
            {"area": "Annex #2", "edges": [{"sides": "1", "kind": "ridge"}], "planes": []},
            [
                '+  - area: "Annex #2"',
                "+    edges:",
                "+      - {sides: 1, kind: ridge}",
                "+    planes: []",
            ],
        ),
        (
            "materials.other",
            "a, b",
            [
                "-materials: {}                                 # primer, mastic, caulk: {apply_at_or_above, coverage, "
                "drying}",
                "+materials:                                 # primer, mastic, caulk: {apply_at_or_above, coverage, "
                "drying}",
                "+  other:",
                "+    - a, b",
            ],
        ),
        (
            "roof[0].pipes",
            {"name": "Vent, {north} #4", "at": "E 1' N 1'", "note": '"x" %', "diameter": "% 4"},
            ['+      - {name: "Vent, {north} #4", at: E 1\' N 1\', note: \'"x" %\', diameter: "% 4"}'],
        ),
    ],
)
def test_an_item_is_added(path: str, values: object, lines: list[str]) -> None:
    """Behind the last one, as its neighbours are typed, in quotes where YAML would read it otherwise."""
    assert changed(EXAMPLE, add_item(EXAMPLE, path, values)) == lines  # type: ignore[arg-type]  # texts, nested


def test_a_long_item_goes_over_several_lines() -> None:
    """None is wider than 120 characters; a table in it that does not fit begins a line."""
    metal = {"kind": "galvanised", "face": '5"', "flange": '4"', "tested_outward": "60 psf", "tested_upward": "120 psf"}
    values = {"sides": "3", "kind": "metal_edge", "metal": {**metal, "nail_spacing": '3"', "nail_shear": "60 lbf"}}
    assert add_item("edges:\n  - {sides: 1}\n", "edges", values) == (
        "edges:\n"
        "  - {sides: 1}\n"
        "  - {sides: 3, kind: metal_edge,\n"
        '     metal: {kind: galvanised, face: 5", flange: 4", tested_outward: 60 psf, tested_upward: 120 psf, '
        'nail_spacing: 3",\n'
        "             nail_shear: 60 lbf}}\n"
    )


def test_a_list_in_brackets_takes_an_item_in_brackets() -> None:
    """Where its items stand on lines of their own, so does the new one."""
    assert add_item("sides: [1, 2-4]  # c\n", "sides", "6") == "sides: [1, 2-4, 6]  # c\n"
    assert add_item("a: [[1, 2],\n    [3, 4]]\n", "a", ["5", "6"]) == "a: [[1, 2],\n    [3, 4],\n    [5, 6]]\n"
    assert add_item("a: [\n  1,\n  2  # two\n]\n", "a", "3") == "a: [\n  1,\n  2,  # two\n  3\n]\n"
    assert add_item("a: []\n", "a", "1") == "a: [1]\n"


def test_a_key_left_empty_takes_a_list() -> None:
    """Below it; so does a file that has nothing yet."""
    assert add_item("roof:   # none yet\nb: 2\n", "roof", {"area": "x"}) == "roof:   # none yet\n  - area: x\nb: 2\n"
    assert add_item("# none", "roof", {"area": "x"}) == "# none\nroof:\n  - area: x\n"


def test_a_byte_order_mark_is_no_indent() -> None:
    """Files of some editors begin with one."""
    assert set_many("\ufeffa: 1\n", [("b.c.d", "2")]) == "\ufeffa: 1\nb:\n  c: {d: 2}\n"
    assert add_item("\ufeffa: 1\n", "b", "2") == "\ufeffa: 1\nb:\n  - 2\n"
    assert drop_value("\ufeffa: 1\nb: 2\n", "a") == "\ufeffb: 2\n"


def test_items_change_places() -> None:
    """Each with its own lines and the comment behind it; what stands between them stays between them."""
    before = "a:\n  # first\n  - b: 1  # one\n    c: 2\n\n  # second\n  - d: 3  # two"
    after = "a:\n  # first\n  - d: 3  # two\n\n  # second\n  - b: 1  # one\n    c: 2"
    assert move_item(before, "a[1]", 0) == after
    assert move_item("a: [b, {c: 1}, d]  # x\n", "a[0]", 2) == "a: [{c: 1}, d, b]  # x\n"


def test_several_values_or_none() -> None:
    """Each that can't be set is told, and the text stays."""
    after = set_many(SMALL, [("roof[0].slope", "2 %"), ("sheets.cap-sa.surfacing", "film"), ("units", "us")])
    assert changed(SMALL, after) == [
        "-    slope: 1/4 in 12",
        "+    slope: 2 %",
        '-  cap-sa: {width: 39 3/8", length: 32\' 10", side_lap: 3", end_lap: 6"}',
        '+  cap-sa: {width: 39 3/8", length: 32\' 10", side_lap: 3", end_lap: 6", surfacing: film}',
        "+units: us",
    ]
    with pytest.raises(Refused) as refused:
        set_many(SMALL, [("roof[0].slope", "2 %"), ("roof[3].slope", "x"), ("units", "a\nb")])
    assert [fault.key for fault in refused.value.faults] == ["units", "roof[3].slope"]


def test_a_sheet_from_nothing_value_by_value() -> None:
    """The table of sheets is a block, each sheet stands in braces, and what would be too wide goes on below."""
    values = [
        ("width", '39 3/8"'), ("length", "65' 7\""), ("thickness", "1.5 mm"), ("side_lap", '3"'), ("end_lap", '6"'),
        ("apply_at_or_above", "50 F"), ("warm_rolls_at_or_above", "20 F"),
    ]  # fmt: skip
    text = set_many("units: us\n", [(f"sheets.base-sa.{name}", value) for name, value in values])
    assert text == (
        "units: us\n"
        "sheets:\n"
        '  base-sa: {width: 39 3/8", length: 65\' 7", thickness: 1.5 mm, side_lap: 3", end_lap: 6", '
        "apply_at_or_above: 50 F,\n"
        "            warm_rolls_at_or_above: 20 F}\n"
    )


@pytest.mark.parametrize(
    ("call", "given", "told"),
    [
        (
            drop_value,
            (SMALL, "roof[0].closure"),
            "job.yaml:2:5  roof[0].closure\n  needs:  a key or an item that the file has",
        ),
        (
            drop_value,
            (SMALL, "roof..[x"),
            "job.yaml  roof..[x\n  needs:  the path of a key, as faults show it\n  write:  roof[0].slope",
        ),
        (
            add_item,
            (SMALL, "roof[0].slope", "x"),
            "job.yaml:5:12  roof[0].slope\n"
            "  read:   1/4 in 12\n"
            "  needs:  the path of a list, or of a key that can be made",
        ),
        (
            add_item,
            (SMALL, "roof[1].pipes", {"name": "V"}),
            "job.yaml:2:3  roof[1].pipes\n  needs:  the path of a list, or of a key that can be made",
        ),
        (
            add_item,
            (SMALL, "roof", {"area": "two\nlines"}),
            "job.yaml:2:3  roof\n  read:   two·lines\n  needs:  texts of one line each",
        ),
        (
            add_item,
            ("a: [1]\n", "a", {"outline": "E 1', N 1'"}),
            "job.yaml:1:4  a\n  needs:  a list on lines of its own; a walk can't stand in braces",
        ),
        (
            move_item,
            (SMALL, "assembly.plies[0]", 2),
            "job.yaml:8:7  assembly.plies[0]\n  read:   2\n  needs:  a place in the list, from 0 to 1",
        ),
        (
            move_item,
            (SMALL, "assembly.plies", 0),
            "job.yaml:8:5  assembly.plies\n  needs:  the path of a list's item\n  write:  roof[1]",
        ),
        (
            drop_value,
            ("a: 1\na: 2\n", "a"),
            "job.yaml:1:4  a\n  needs:  a key or an item that can be taken out by itself; change it in the text",
        ),
        (
            add_item,
            ("---\na: 1\n...\n", "b", "x"),
            "job.yaml:3:1\n  read:   ...\n  needs:  a file without this line, so that keys can be added at its end",
        ),
        (
            new_job,
            ("", "furlongs"),
            "job.yaml  job.name\n  needs:  a text of 1 to 80 characters on one line\n\n"
            "job.yaml  units\n  read:   furlongs\n  needs:  one of us, metric\n  write:  us",
        ),
        (
            drop_value,
            ("a: 1\n" * 200_001, "a"),
            "job.yaml\n"
            "  read:   1,000,005 characters\n"
            "  needs:  a job file of at most 1,000,000 characters; long outlines come from drawings",
        ),
    ],
)
def test_what_cannot_be_done_is_told(call: object, given: tuple[object, ...], told: str) -> None:
    """Where, what was read, what is needed."""
    assert refusal(call, *given) == told


def test_a_new_job_lacks_what_is_yet_to_be_given() -> None:
    """And nothing else is wrong with it, whatever the name."""
    text = new_job("Bay #4, north", "metric")
    with pytest.raises(Refused) as refused:
        read_job(text, file="j")
    assert [(fault.key, fault.needs) for fault in refused.value.faults] == [
        ("assembly", "the key assembly: the build-up, from the deck up"),
        ("roof", "the key roof: the areas of the roof, each a plane"),
        ("sheets", "the key sheets: the sheets by name, as their data sheets describe them"),
    ]


def test_a_job_from_nothing() -> None:
    """Edit by edit, until it is read; it looks as job files are typed by hand."""
    text = new_job("Quarry Lane", "us")
    area = {"area": "Main", "outline": "E 120', N 64', W 120', S 64'", "falls": "S", "slope": "1/4 in 12"}
    text = add_item(text, "roof", area)
    text = add_item(text, "roof[0].openings", CURB)
    text = add_item(text, "assembly.plies", {"ply": "base", "sheet": "b"})
    text = add_item(text, "assembly.plies", {"ply": "cap", "sheet": "c"})
    sheet = [("width", '39 3/8"'), ("length", "32' 10\""), ("side_lap", '3"'), ("end_lap", '6"')]
    text = set_many(text, [(f"sheets.{name}.{key}", value) for name in "bc" for key, value in sheet])
    assert [area.area for area in read_job(text, file="j").roof] == ["Main"]
    assert text[text.index("units") :] == (
        "units: us                             # us or metric, for what is written out\n"
        "\n"
        "roof:\n"
        "  - area: Main\n"
        "    outline: E 120', N 64', W 120', S 64'\n"
        "    falls: S\n"
        "    slope: 1/4 in 12\n"
        "    openings:\n"
        "      - {name: RTU-2, kind: curb, at: E 60' N 20', size: E 8' x N 6', height: 8\"}\n"
        "\n"
        "assembly:\n"
        "  plies:\n"
        "    - {ply: base, sheet: b}\n"
        "    - {ply: cap, sheet: c}\n"
        "\n"
        "sheets:\n"
        '  b: {width: 39 3/8", length: 32\' 10", side_lap: 3", end_lap: 6"}\n'
        '  c: {width: 39 3/8", length: 32\' 10", side_lap: 3", end_lap: 6"}\n'
    )
