"""Reads a job file: text in, Job out, or every fault of the file at once, in file order."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from lapwright.faults import Fault, Refused
from lapwright.job import keys
from lapwright.job.area_models import AreasTyped
from lapwright.job.composing import Reading, compose
from lapwright.job.crosscheck import cross_faults
from lapwright.job.crossrules import fitted_rules
from lapwright.job.fields import Reads, close_to
from lapwright.job.models import Job
from lapwright.job.roof_models import AreaTyped
from lapwright.job.trap import told
from lapwright.job.tree import Node, Path, Row, Table, Text, key_at, nearest, plain, written
from lapwright.units.examples import example_in, limits_in, offered_in, with_unit
from lapwright.units.write import Units

MOST_BYTES = 1_000_000
MOST_FAULTS = 200

_TAGS = frozenset({"@walk", "@points", "@dxf", "@geojson", "@one", "@zones", "@word", "@block"})
# What the readers of bare numbers offer, whatever the key: its own example says more.
GENERAL = ("12 or 0.5", "6")
_NUMBER = re.compile(r"[0-9][0-9 ./-]*")


def job_text(data: bytes, *, file: str) -> str:
    """The bytes of a job file as text.

    Raises: Refused where they are too many, or no UTF-8.
    """
    _not_too_long(len(data), file)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as found:
        before = data[: found.start].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
        line, column = before.count(b"\n") + 1, len(before) - before.rfind(b"\n")
        needs, write = "a file saved as UTF-8 text", "the same text, saved as UTF-8"
        raise Refused([Fault(file, line, column, "", f"byte {data[found.start]:02X}", needs, write)]) from None


def read_job(source: str | bytes, *, file: str) -> Job:
    """The job of a job file.

    Args:
        source: the whole file, as text or as its bytes.
        file: its name as faults show it.

    Raises: Refused with every fault of the file: its form, its values, and what its keys say about one another.
    """
    text = job_text(source, file=file) if isinstance(source, bytes) else source
    _not_too_long(len(text), file)
    reading = compose(text, file=file)
    if not isinstance(reading.root, Table) or (not reading.root.pairs and not reading.faults):
        needs = "a job: keys and values, beginning with roof, assembly and sheets"
        raise Refused([*reading.faults, Fault(file, 0, 0, "", "", needs, "")])
    judge = _Judge(file, reading)
    job = judge.job()
    faults = [*reading.faults, *judge.faults]
    if faults or job is None:
        raise Refused(faults)
    return job.stand(reading.root, reading.places, file)


def read_areas(text: str, *, file: str) -> Job | None:
    """What can be made of the areas of a job that has faults, so that its outlines are judged with the rest.

    A job with those areas alone that can be read by themselves, each at its place in the file, None for the others;
    None where the file's form is broken.  It serves to build the roof and to place faults, for nothing else.
    """
    reading = compose(text, file=file)
    if not isinstance(reading.root, Table) or reading.cut_at is not None:
        return None
    typed: Any = plain(reading.root)
    rows = typed.get("roof")
    areas = [_area_or_none(row) for row in rows] if isinstance(rows, list) else []
    units = "metric" if typed.get("units") == "metric" else "us"
    drawn = _drawn_or_none(typed.get("areas"))
    return Job.model_construct(roof=tuple(areas), units=units, areas=drawn).stand(reading.root, reading.places, file)


def _drawn_or_none(typed: Any) -> AreasTyped | None:  # noqa: ANN401  # nested texts
    """The areas drawn in one plan; None where what is typed of them can't be read."""
    try:
        return AreasTyped.model_validate(typed)
    except ValidationError:
        return None


# What an area is judged with where its own key can't be read; none of these can make an outline wrong.
_NEUTRAL = {"area": "unnamed", "falls": "S", "slope": "1/4 in 12"}


def _area_or_none(row: Any) -> AreaTyped | None:  # noqa: ANN401  # nested texts
    """An area less what of it can't be read; None where that is its outline."""
    if not isinstance(row, dict):
        return None
    kept: dict[str, Any] = dict(row)
    try:
        return AreaTyped.model_validate(kept)
    except ValidationError as found:
        wrong = dict.fromkeys(str(error["loc"][0]) for error in found.errors(include_url=False, include_input=False))
    for name in wrong:
        kept.pop(name, None)
        if name in _NEUTRAL:
            kept[name] = _NEUTRAL[name]
    try:
        return AreaTyped.model_validate(kept)
    except ValidationError:
        return None


def _not_too_long(length: int, file: str) -> None:
    if length > MOST_BYTES:
        needs = "a job file of at most 1 MB; long outlines come from drawings"
        raise Refused([Fault(file, 0, 0, "", f"{length:,} bytes", needs, "outline: {dxf: roof.dxf, layer: ROOF-MAIN}")])


@dataclass(frozen=True, slots=True)
class _Wrong:
    """An error of the models: path, what is needed, what to write.

    read: what was read, where that is not the text there; at_key: it is told at the key, else at the value.
    """

    path: Path
    needs: str
    write: str
    read: str | None = None
    at_key: bool = False


class _Judge:
    """Turns what the models and the cross-checks say into faults with their places."""

    def __init__(self, file: str, reading: Reading) -> None:
        self.file, self.root, self.places, self.cut_at = file, reading.root, reading.places, reading.cut_at
        self.faults: list[Fault] = []
        system = self.root.pairs.get("units") if isinstance(self.root, Table) else None
        is_metric = system is not None and isinstance(system.value, Text) and system.value.value == "metric"
        self.units = Units("metric" if is_metric else "us")

    def job(self) -> Job | None:
        """The job; None where there are faults."""
        made: Job | None = None
        try:
            made = Job.model_validate(plain(self.root))
        except ValidationError as found:
            for error in found.errors(include_url=False, include_input=False):
                if len(self.faults) >= MOST_FAULTS:
                    break
                for wrong in self._wrongs(error):
                    self._tell(wrong)
        if self.cut_at is None:
            for cross in cross_faults(self.root):
                write = offered_in(self.units, cross.write)
                self._tell(_Wrong(cross.path, cross.needs, write, cross.read, cross.at_key))
        return None if self.faults or made is None else made.model_copy(update={"rules": fitted_rules(made)})

    def _wrongs(self, error: Any) -> Iterator[_Wrong]:  # noqa: ANN401  # pydantic's ErrorDetails, by type
        path = tuple(step for step in error["loc"] if step not in _TAGS)
        kind, context = error["type"], error.get("ctx", {})
        if self._is_unread(nearest(self.root, path)[0], kind):
            return
        if kind == "told":
            yield self._unread(path, context)
        elif kind == "several":
            for name, needs, write, is_key in context["wrong"]:
                yield _Wrong((*path, name), needs, offered_in(self.units, write), at_key=is_key)
        elif kind == "missing":
            yield self._missing(path)
        elif kind == "extra_forbidden":
            yield self._unknown(path)
        elif kind != "spoilt":
            yield self._shape(path)

    def _unread(self, path: Path, context: dict[str, Any]) -> _Wrong:
        needs, write = context["needs"], offered_in(self.units, context["write"])
        if context["example"]:
            needs, write = limits_in(self.units, needs), example_in(self.units, write)
        node, reached = nearest(self.root, path)
        reads = context["reads"]
        if reads is not None and reads.write and write in GENERAL:
            write = reads.write
        if isinstance(node, Text) and reached == path and reads is not None and not self.units.is_us:
            write = with_unit(node.value, write, reads.take, _usual(reads)) or write
        is_eaten = context["dimension"] and isinstance(node, Text) and node.is_quoted and reached == path
        if is_eaten and isinstance(node, Text) and _NUMBER.fullmatch(node.value):
            needs = f"{needs}; the quotation marks around {node.value} were taken as quotes"
            write = node.value + node.typed[0] if "length" in needs else write
        return _Wrong(path, needs, write)

    def _missing(self, path: Path) -> _Wrong:
        field = keys.field_at(path)
        needs = f"the key {path[-1]}: {field.description}" if field is not None else f"the key {path[-1]}"
        example = example_in(self.units, keys.example(path))
        write = f"{path[-1]}: {example}" if keys.shape_at(path) == "text" and example else example
        return _Wrong(path, needs, write, read="")

    def _unknown(self, path: Path) -> _Wrong:
        known = [name for model in keys.models_at(path[:-1]) for name in keys.known_keys(model)]
        name = str(path[-1])
        near = close_to(name, known)
        node, reached = nearest(self.root, path)
        value = f" {node.typed}" if isinstance(node, Text) and reached == path else ""
        if near is None and (home := keys.home_of(name)) and value:
            return _Wrong(path, f"{name} under {home}", f"{home}: {{{name}:{value}}}", at_key=True)
        if near is None:
            return _Wrong(path, f"one of the keys {', '.join(known)}", "", at_key=True)
        return _Wrong(path, f"a key that is known here; the nearest is {near}", f"{near}:{value}", at_key=True)

    def _shape(self, path: Path) -> _Wrong:
        words = {
            "list": "a list, each item on its own line behind a dash",
            "table": "keys and values, in braces or in a block below",
            "named": "names, each with keys and values",
            "text": "a value on one line",
        }
        return _Wrong(path, words[keys.shape_at(path)], example_in(self.units, keys.example(path)))

    def _tell(self, wrong: _Wrong) -> None:
        node, reached = nearest(self.root, wrong.path)
        if node.is_spoilt:
            return
        key = key_at(self.root, wrong.path) if wrong.at_key else None
        start = key.start if key is not None else node.start
        read = wrong.read
        if read is None:
            read = key.typed if key is not None else _typed(node) if reached == wrong.path else ""
        line, column = self.places.of(start)
        fault = Fault(self.file, line, column, written(wrong.path), told(read), wrong.needs, told(wrong.write))
        if fault not in self.faults:
            self.faults.append(fault)

    def _is_unread(self, node: Node, kind: str) -> bool:
        """It stands where the file could not be read, so that nothing is known of it."""
        if self.cut_at is None:
            return False
        if kind == "missing":
            return node.end >= self.cut_at
        return (node.end if isinstance(node, Text) else node.start) >= self.cut_at


def _usual(reads: Reads) -> float:
    """The value of a reader's example; 0 where it is no number."""
    value = reads.take(reads.write) if reads.write else 0.0
    return float(value) if isinstance(value, int | float) else 0.0


def _typed(node: Node) -> str:
    if isinstance(node, Text):
        return " ".join(node.typed.split())
    if isinstance(node, Row):
        return f"a list of {len(node.items)}"
    return "{" + ", ".join(f"{name}: …" for name in node.pairs) + "}"
