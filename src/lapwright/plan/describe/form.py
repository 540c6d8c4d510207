"""The sheet that describes a job, as plain values: its steps, their fields, and what is wrong or missing at each."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.faults import Fault
from lapwright.job.fields import Reads
from lapwright.job.keys import field_at
from lapwright.job.mappings import ReadsRates, ReadsRules
from lapwright.job.tree import Path, path_of, written
from lapwright.plan.describe.fields import block_json, field_json, part_json
from lapwright.plan.describe.starting import starts_for
from lapwright.plan.describe.typed import Typed, table_of, typed_job
from lapwright.plan.desk.judging import faults_of
from lapwright.plan.desk.stages import JobAsk
from lapwright.units.examples import example_in
from lapwright.units.retold import retold
from lapwright.units.unread import Unread
from lapwright.units.write import Units

Json = dict[str, Any]
NUMBER = re.compile("[0-9]+")


@dataclass(frozen=True, slots=True)
class Step:
    """A step of the description.  keys: of the job file that it shows; idle: what is left open without them."""

    key: str
    name: str
    about: str
    keys: tuple[str, ...]
    idle: str = ""


STEPS = (
    Step("roof", "Roof", "Each area of the roof as it was measured, corner after corner", ("roof", "areas")),
    Step("edges", "Edges", "What each side is, and the metal on it", ("roof.edges",), "edges are not given"),
    Step(
        "standing",
        "Openings, pipes, drains",
        "What stands in the roof or leads water off it, from the first corner of its area",
        ("roof.openings", "roof.pipes", "roof.drains"),
    ),
    Step(
        "falls",
        "Falls",
        "Which way water runs, and how steeply",
        ("roof.falls", "roof.slope", "roof.planes", "roof.roof_height"),
    ),
    Step("sheets", "Build-up and sheets", "From the deck up; sheets as their data sheets say", ("sheets", "assembly")),
    Step(
        "weather",
        "Site and weather",
        "Where the roof is, and the hours that the work is planned on",
        ("site", "weather"),
        "without weather no hour is judged and no day is planned",
    ),
    Step(
        "crew",
        "Crew and tools",
        "Who works when, the test weld, the power and the warm store",
        ("crew", "weld", "power", "store"),
        "without a crew no day is planned",
    ),
    Step(
        "building",
        "Building",
        "What the wind asks of the roof",
        ("building",),
        "without the building wind stays unknown",
    ),
    Step("materials", "Materials and prices", "Primer, mastic, caulk; what things cost", ("materials", "prices")),
    Step("rules", "Rules", "How the sheets are laid: every rule has a default", ("layout", "rules")),
    Step("title", "Title block", "What stands on every sheet", ("job", "units", "paper", "work")),
)
AREA_KEYS: Mapping[str, tuple[str, ...]] = {
    "roof": ("area", "start", "closure"),
    "edges": ("edges",),
    "standing": ("openings", "pipes", "drains"),
    "falls": ("falls", "slope", "planes", "roof_height"),
}


def form_json(ask: JobAsk) -> Json:
    """The steps of a job's description with its faults at their fields."""
    typed = typed_job(ask.text, file=ask.path.name)
    steps = [step_json(step, typed) for step in STEPS]
    faults = faults_of(ask.text, ask.path)
    loose = put_at_fields(steps, faults)
    units = Units("metric" if typed.get("units") == "metric" else "us")
    if not units.is_us:
        tell_in_metric(steps)
    for step in steps:
        step["missing"] = sum(1 for _ in _faults(step))
        step["starts"] = starts_for(step["key"], typed, units)
    return {"steps": steps, "faults": [fault_json(fault) for fault in loose], "missing": len(faults)}


def step_json(step: Step, typed: Typed) -> Json:
    """One step with its blocks; those of the roof are made area by area."""
    head: Json = {"key": step.key, "name": step.name, "about": step.about, "idle": "", "faults": [], "keys": step.keys}
    if step.key in AREA_KEYS:
        blocks = _area_blocks(AREA_KEYS[step.key], typed)
        if step.key == "roof" and "areas" in typed:
            blocks.append(block_json(("areas",), typed["areas"]))
        return {**head, "blocks": blocks}
    fields, blocks = [], []
    for key in step.keys:
        if key in ("units", "paper", "work"):
            fields.append(field_json((key,), typed.get(key)))
        else:
            blocks.append(part_json((key,), typed.get(key), list(table_of(typed.get("sheets")))))
    if step.key == "sheets":
        _offer_sheets(blocks, list(table_of(typed.get("sheets"))))
    if not any(typed.get(key) for key in step.keys):
        head["idle"] = step.idle
    return {**head, "fields": fields, "blocks": blocks}


def _offer_sheets(blocks: Iterable[Json], names: Sequence[str]) -> None:
    """A ply's sheet is one of the job's."""
    for block in blocks:
        for node in (block, *_nodes(block), *_nodes(block.get("template", {}))):
            _offer_sheets(list(filter(None, [node.get("template")])), names)
            if node.get("key") == "sheet" and names:
                node["choices"] = [[name, name] for name in names]


def _area_blocks(keys: Sequence[str], typed: Typed) -> list[Json]:
    rows = typed.get("roof")
    made = []
    for place, row in enumerate(rows if isinstance(rows, list) else []):
        block = block_json(("roof", place), table_of(row), keys)
        name = table_of(row).get("area")
        made.append({**block, "name": name if isinstance(name, str) and name else f"Area {place + 1}"})
    return made


def tell_in_metric(parts: Iterable[Json]) -> None:
    """Examples and defaults in metric units, those of what can be added too."""
    metric = Units("metric")
    for part in parts:
        for node in (part, *_nodes(part)):
            tell_in_metric(filter(None, [node.get("template")]))
            is_difference = node.get("key") == "dew_point_margin"
            if node.get("default"):
                for name in ("default", "example"):
                    node[name] = retold(metric, node[name], difference=is_difference)
            elif node.get("example"):
                node["example"] = example_in(metric, node["example"])


def put_at_fields(steps: Sequence[Json], faults: Iterable[Fault]) -> list[Fault]:
    """Puts each fault at the field or block that its key names, else at what stands above; gives those left over."""
    index = {node["path"]: node for step in reversed(steps) for node in reversed(list(_nodes(step)))}
    by_key = {key: step for step in reversed(steps) for key in _step_of(step["key"]).keys}
    left = []
    for fault in faults:
        place = _place_of(fault.key, index, by_key)
        if place is None:
            left.append(fault)
        else:
            place["faults"].append(fault_json(fault))
    return left


def _step_of(key: str) -> Step:
    return next(step for step in STEPS if step.key == key)


def _place_of(key: str, index: Mapping[str, Json], steps: Mapping[str, Json]) -> Json | None:
    try:
        path: Path = path_of(key)
    except ValueError:
        return None
    for length in range(len(path), 0, -1):
        shown = written(path[:length])
        is_area = length == 2 and path[0] == "roof"
        if is_area and len(path) > 2 and (step := steps.get(f"roof.{path[2]}")) is not None:
            return next((block for block in step["blocks"] if block["path"] == shown), step)
        if shown in index:
            return index[shown]
        if shown in steps:
            return steps[shown]
    return None


def _nodes(part: Json) -> Iterator[Json]:
    """Every field and block below a step or block; not those of a template, which stand nowhere yet."""
    for name in ("fields", "blocks", "items"):
        for node in part.get(name, ()):
            yield node
            yield from _nodes(node)


def _faults(step: Json) -> Iterator[Json]:
    yield from step["faults"]
    for node in _nodes(step):
        yield from node["faults"]


def fault_json(fault: Fault) -> Json:
    """A fault, with the value that can be put in as it is; empty where there is none.

    plain: in words of a form, where nothing was read: a form has fields, not keys.
    """
    said = {**fault.as_json(), "value": value_of(fault)}
    missing = fault.needs.partition(": ")
    if not fault.read and missing[0].startswith("the key ") and missing[2]:
        said["plain"] = f"still to be given: {missing[2]}"
    return said


def value_of(fault: Fault) -> str:
    """What of `write` is a value that the key's reader takes."""
    try:
        path = path_of(fault.key)
    except ValueError:
        return ""
    reader = _reader(path)
    if reader is None:
        above = _reader(path[:-1])
        if not isinstance(above, (ReadsRules, ReadsRates)):
            return ""
        alone = fault.write.removeprefix(f"{path[-1]}: ")
        return alone if is_taken(above, {str(path[-1]): alone}) and _keeps_numbers(fault.read, alone) else ""
    written_as = fault.write.removeprefix(f"{path[-1]}: ")
    for value in (written_as, written_as.strip("'\""), written_as.split(", ")[0]):
        if is_taken(reader, value):
            return value if _keeps_numbers(fault.read, value) else ""
    return ""


def _keeps_numbers(read: str, value: str) -> bool:
    """No number that was read is exchanged for another one: an example is no mend of what somebody typed."""
    before, after = ([int(number) for number in NUMBER.findall(text)] for text in (read, value))
    return all(before.count(number) <= after.count(number) for number in before)


def _reader(path: Path) -> Any:  # noqa: ANN401  # a reader of any kind of value, or None
    field = field_at(path) if path and isinstance(path[-1], str) else None
    return next((item for item in field.metadata if hasattr(item, "take")), None) if field is not None else None


def is_taken(reader: Any, value: str | Mapping[str, str]) -> bool:  # noqa: ANN401  # a reader of any kind of value
    """A reader reads a value; a free text is none that could be offered."""
    if not value or (isinstance(reader, Reads) and not reader.write):
        return False
    try:
        reader.take(value)
    except (Unread, ValueError):
        return False
    return True
