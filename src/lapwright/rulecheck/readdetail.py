"""A detail of a plan as it was given: a strip, flashing, gusset, target, length of metal, or a thing at one place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.rulecheck.node import Node
from lapwright.rulecheck.values import XY


@dataclass(frozen=True, slots=True)
class GivenDetail:
    """A detail; what the plan does not say is empty or None.

    length, width, parts: its sizes [m].  takes: length of roll [m].  beside: the detail that it is cut beside.
    """

    id: str
    sheet: str
    roll: str
    takes: float | None
    kind: str = ""
    area: str = ""
    of: str = ""
    ply: str = ""
    length: float | None = None
    width: float | None = None
    parts: Mapping[str, float] = field(default_factory=dict)
    line: tuple[XY, XY] | None = None
    beside: str = ""
    at: XY | None = None


def read_detail(node: Node) -> GivenDetail:
    """A detail by the names of the plan file.

    Raises: Unreadable with the path of what is not what it should be.
    """
    takes, sizes, line, at = (node.maybe(key) for key in ("takes", "sizes", "line", "at"))
    length = sizes.maybe("length") if sizes else None
    width = sizes.maybe("width") if sizes else None
    return GivenDetail(
        id=node.at("id").text(),
        sheet=_text(node, "sheet"),
        roll=_text(node, "roll"),
        takes=None if takes is None else takes.number(),
        kind=_text(node, "kind"),
        area=_text(node, "area"),
        of=_text(node, "of"),
        ply=_text(node, "ply"),
        length=None if length is None else length.number(),
        width=None if width is None else width.number(),
        parts=_parts(sizes.maybe("parts") if sizes else None),
        line=None if line is None else _line(line),
        beside=_text(node, "beside"),
        at=None if at is None else at.point(),
    )


def _text(node: Node, key: str) -> str:
    found = node.maybe(key)
    return "" if found is None else found.text()


def _line(node: Node) -> tuple[XY, XY]:
    start, end = node.each(2)
    return (start.point(), end.point())


def _parts(node: Node | None) -> dict[str, float]:
    if node is None:
        return {}
    names = [str(name) for name in node.value] if isinstance(node.value, Mapping) else []
    return {name: node.at(name).number() for name in names}
