"""The script of the page of figures picks from the tables on the safe side; it reckons nothing."""

from __future__ import annotations

import json
import re
import subprocess
from importlib.resources import files

import pytest
from playwright._impl._driver import compute_driver_executable

NODE = compute_driver_executable()[0]  # the one that the tests' browser tool brings
SCRIPT = files("lapwright.packet.figures").joinpath("pick.js").read_text("utf-8")

HARNESS = """
"use strict";
var told = {}, tables = JSON.parse(process.argv[1]), values = JSON.parse(process.argv[2]);
function cell(one) {
  return {dataset: one[1] === null ? {} : {value: String(one[1])}, textContent: one[0],
          classList: {add: function () {}, remove: function () {}}};
}
tables = tables.map(function (one) {
  var rows = one.rows.map(function (row) {
    return {cells: row.cells.map(cell), hasAttribute: function () { return row.own; },
            classList: cell(["", 0]).classList};
  });
  told[one.id] = {textContent: ""};
  return {id: one.id, dataset: one.dataset, tBodies: [{rows: rows}], tHead: {rows: [{cells: one.head.map(cell)}]},
          querySelectorAll: function () { return []; }};
});
var listeners = {}, form = {hidden: true, elements: {}};
form.addEventListener = function (name, what) { listeners[name] = what; };
Object.keys(values).forEach(function (name) {
  form.elements[name] = {value: values[name], valueAsNumber: Number(values[name])};
});
global.document = {
  getElementById: function () { return form; },
  querySelector: function (words) { return told[words.slice(11, -2)]; },
  querySelectorAll: function () { return tables; }
};
SCRIPT
listeners.input();
process.stdout.write(JSON.stringify(Object.values(told).map(function (one) { return one.textContent; })));
"""
ROLLS = {
    "id": "t",
    "dataset": {"rows": "air", "columns": "wind", "unit": "min"},
    "head": [["Air", None], ["0 mph", 0], ["5 mph", 5], ["10 mph", 10]],
    "rows": [
        {"own": False, "cells": [["30 °F", 30], ["45", None], ["11", None], ["6.4", None]]},
        {"own": False, "cells": [["20 °F", 20], ["23", None], ["6", None], ["3.4", None]]},
    ],
}


@pytest.mark.parametrize(
    ("air", "wind", "said"),
    [
        ("30", "5", "Read at 30 °F, 5 mph: 11 min"),
        ("29.9", "5.1", "Read at 20 °F, 10 mph: 3.4 min"),
        ("60", "0", "Read at 30 °F, 0 mph: 45 min"),
        ("19", "5", "Colder than this table goes: it says nothing."),
        ("25", "11", "Windier than this table goes: it says nothing."),
        ("25", "", ""),
        ("", "", ""),
    ],
)
def test_a_reading_goes_to_the_colder_row_and_the_windier_column(air: str, wind: str, said: str) -> None:
    """Between two heads the colder and the windier; beyond the table nothing; in between nothing is made up."""
    code = HARNESS.replace("SCRIPT", SCRIPT)
    words = [json.dumps([ROLLS]), json.dumps({"air": air, "wind": wind, "sheet": ""})]
    done = subprocess.run([NODE, "-e", code, *words], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == [said]


def test_a_table_of_ways_to_stand_tells_the_jobs_own() -> None:
    """In a table with one reading across, the job's own row is told, at the colder column."""
    store = {
        "id": "t",
        "dataset": {"columns": "air", "unit": "h"},
        "head": [["Rolls come at", None], ["30 °F", 30], ["20 °F", 20]],
        "rows": [
            {"own": False, "cells": [["spaced", None], ["8.5", None], ["10.2", None]]},
            {"own": True, "cells": [["wrapped", None], ["120", None], ["never", None]]},
        ],
    }
    words = [json.dumps([store]), json.dumps({"air": "28", "wind": "", "sheet": ""})]
    done = subprocess.run(
        [NODE, "-e", HARNESS.replace("SCRIPT", SCRIPT), *words], capture_output=True, text=True, check=True
    )
    assert json.loads(done.stdout) == ["Read at wrapped, 20 °F: never"]


def test_the_script_reckons_nothing_and_asks_nobody() -> None:
    """No product, quotient or root of numbers, nothing from the network, no markup written."""
    bare = re.sub(r"//.*", "", re.sub(r'"[^"]*"', '""', SCRIPT))
    assert re.findall(r"[*/%]|Math|fetch|XMLHttp|import|innerHTML|outerHTML|document\.write|eval", bare) == []
