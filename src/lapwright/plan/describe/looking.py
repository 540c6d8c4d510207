"""The process that looks into a file somebody gave: its layers, or what a plan of some layers comes to.

It ends itself where that takes too long or too much memory, whatever the file holds.  A question comes over standard
input, the answer goes to standard output, both pickled (`plan.workers`).
"""

from __future__ import annotations

import io
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from types import MappingProxyType
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.plan.workers import receive, send

LONGEST_S = 30  # of the processor
MOST_MEMORY = 2 * 1024**3
MOST_LAYERS = 500
DRAWINGS, WEATHER = (".dxf", ".geojson", ".json"), (".epw", ".csv", ".txt", ".gz", "")
Json = dict[str, Any]
# What a drawing's or a map's own words for shapes mean to whoever looks at them.
PLAIN: Mapping[str, str] = MappingProxyType(
    {
        "lwpolyline": "polyline",
        "polyline": "polyline",
        "polygon": "polygon",
        "multipolygon": "polygon",
        "line": "line",
        "linestring": "line",
        "arc": "arc",
        "circle": "circle",
        "ellipse": "ellipse",
        "spline": "curve",
        "point": "point",
        "insert": "block",
        "text": "text",
        "mtext": "text",
        "attrib": "text",
        "attdef": "text",
        "dimension": "dimension",
        "hatch": "hatch",
        "solid": "filled shape",
    }
)


def main() -> None:
    """Entry point of the process: one question, one answer."""
    limit()
    asked = receive(sys.stdin.buffer)
    try:
        answer: tuple[str, Any] = ("done", look(*asked))
    except Refused as refused:
        answer = ("refused", refused.faults)
    except (MemoryError, RecursionError):
        return  # whoever asked hears nothing, and tells that it was too much
    send(sys.stdout.buffer, answer)


def limit() -> None:
    """Sets the limits, where the system has them; whoever asked ends a process that takes too long all the same."""
    with suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CPU, (LONGEST_S, LONGEST_S))
        resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY))


def look(what: str, path: Path, name: str, more: Mapping[str, Any]) -> Any:  # noqa: ANN401  # plain values, or of `intake`
    """What is found in a file.  what: layers, weather or plan; years asks for the bundled years instead; outline and
    areas ask `plan.drawings` what a job asks of it.

    name: what faults call it.

    Raises: Refused
    """
    from lapwright.intake.plan_scale import taken_in

    if what == "years":
        from lapwright.plan.describe.years import years

        return {"years": years()}
    if what == "plan":
        return plan_of(path, name, more)
    if what in ("outline", "areas"):
        from lapwright.plan.drawings import HERE

        found: Any = getattr(HERE, what)(*more["asked"])
        return found
    if what == "weather":
        return weather_of(path, name)
    with path.open("rb") as stream:
        content = taken_in(stream, file=name)
    assert isinstance(content, bytes)  # the stream is of bytes
    return dxf_layers(content, name) if name.lower().endswith(".dxf") else geojson_layers(content, name)


def dxf_layers(content: bytes, name: str) -> Json:
    """The layers of a drawing that hold something, with what they hold, and the unit that it says."""
    from lapwright.intake.plan_dxf import INSUNITS
    from lapwright.intake.plan_scale import WORDS
    from lapwright.intake.plan_tags import decoded, scanned

    drawing = scanned(decoded(content, file=name), file=name)
    held: dict[str, Counter[str]] = {}
    blocks = [each for block in drawing.blocks.values() for each in block.entities]
    for each in (*drawing.entities, *blocks):
        held.setdefault(each.layer.casefold(), Counter())[each.kind.lower()] += 1
    code = drawing.insunits
    unit = WORDS.get(INSUNITS.get(code, ""), "") if code is not None else ""
    layers = [layer_json(layer, held[layer.casefold()]) for layer in drawing.layers if layer.casefold() in held]
    return {"file": name, "kind": "dxf", "unit": unit, "layers": layers[:MOST_LAYERS], "property": ""}


def geojson_layers(content: bytes, name: str) -> Json:
    """The values of the property that tells features apart, with what shapes have them.

    Raises: Refused where no property does.
    """
    from lapwright.intake.plan_json import features, parsed

    found = list(features(parsed(content, name)))
    names = Counter(key for _, _, given in found for key, value in given.items() if isinstance(value, str | int))
    if not names:
        needs = "features with a property that says what each is, such as layer"
        raise Refused([Fault(name, 0, 0, "properties", "", needs, '"properties": {"layer": "ROOF-MAIN"}')])
    named_by = "layer" if "layer" in names else names.most_common(1)[0][0]
    held: dict[str, Counter[str]] = {}
    for _, geometry, given in found:
        kind = str(geometry.get("type", "")).lower()
        held.setdefault(str(given.get(named_by, "")), Counter())[kind[:40]] += 1
    layers = [layer_json(value, kinds) for value, kinds in held.items() if value]
    return {"file": name, "kind": "geojson", "unit": "", "layers": layers[:MOST_LAYERS], "property": named_by}


def layer_json(layer: str, held: Counter[str]) -> Json:
    """A layer and what stands on it, in words."""
    shown: Counter[str] = Counter()
    for kind, count in held.items():
        shown[PLAIN.get(kind, kind)] += count
    return {"layer": layer, "holds": ", ".join(_counted(count, word) for word, count in sorted(shown.items()))}


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 or word not in PLAIN.values() else f"{count} {word}s"


def weather_of(path: Path, name: str) -> Json:
    """What a weather file is, by its first lines."""
    import gzip

    from lapwright.intake.weather_source import HEAD_BYTES, detect_format

    head = path.read_bytes()[:HEAD_BYTES]
    if head.startswith(b"\x1f\x8b"):
        try:
            with gzip.open(io.BytesIO(path.read_bytes())) as stream:
                head = stream.read(HEAD_BYTES)
        except (OSError, EOFError):
            head = b""
    found = detect_format(head)
    if found is None:
        needs = "an EPW, TMY3 CSV or ISD-Lite file, or a logger's CSV whose first line names its columns"
        raise Refused([Fault(name, 1, 0, "", "", needs, "")])
    return {"file": name, "kind": "weather", "format": found}


def plan_of(path: Path, name: str, more: Mapping[str, Any]) -> Json:
    """What some layers of a drawing come to, area by area, in words.  more: `areas` of a job file, and its units."""
    from lapwright.intake.plan_values import AreaLayers
    from lapwright.job.area_models import AreasTyped
    from lapwright.plan.describe.typed import made_or_none
    from lapwright.plan.drawn import drawn_words
    from lapwright.plan.sources import read_areas_drawn
    from lapwright.units.write import Units

    areas = made_or_none(AreasTyped, more["areas"])
    if areas is None:
        needs = "layers and names of areas that a job file can have, names of 80 characters at most"
        raise Refused([Fault(name, 0, 0, "layers", "", needs, "")])
    units = Units(more["units"])
    wanted = [
        AreaLayers(area, each.outline, tuple(each.openings), tuple(each.pipes), tuple(each.drains))
        for area, each in areas.layers.items()
    ]
    found = read_areas_drawn(path.parent, areas, wanted, units)
    words: Sequence[str] = [drawn_words(area, units) for area in found.areas]
    sides = {area.area: len(area.outline) for area in found.areas}
    return {"file": name, "words": list(words), "mended": [note.text() for note in found.mended], "sides": sides}
