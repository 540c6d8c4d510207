"""A check and its steps: what is asked, what was put in, what came out, and who says so.

Status is one of `pass`, `fail`, `unknown`.  A check whose input is missing is `unknown` and says
what to supply; it never passes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType
from typing import Literal, TypeVar, cast

T = TypeVar("T")
Status = Literal["pass", "fail", "unknown"]
NOTHING: Mapping[str, object] = MappingProxyType({})


# The key of a side that no row of `edges` names: area's place, side, what is asked of it.
NOT_GIVEN = "Not given in the job file: "
UNNAMED_SIDE = re.compile(r"(roof\[\d+\]\.edges)\[side (\d+)\]\..+")


def row_to_paste(key: re.Match[str]) -> str:
    """The row that names a side, with the kind that most sides are as an example."""
    return f"in {key[1]} a line such as - {{sides: {key[2]}, kind: metal_edge}}"


@dataclass(frozen=True, slots=True)
class Step:
    """One line of a calculation sheet.

    `values` are the numbers put in (SI, or text); `result` is SI in `unit`.
    """

    text: str
    formula: str = ""
    values: Mapping[str, object] = field(default_factory=lambda: NOTHING)
    result: float | str | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Check:
    """A question with a verdict.

    `supply` names the job-file keys that an unknown one lacks; `uses` names every key that it reads, so that taking
    one of them away must make it unknown.
    """

    id: str
    title: str
    status: Status
    demand: float | None = None
    capacity: float | None = None
    unit: str = ""
    steps: tuple[Step, ...] = ()
    source: str = ""
    confirm: str = ""
    supply: tuple[str, ...] = ()
    uses: tuple[str, ...] = ()

    @property
    def supply_words(self) -> str:
        """What to supply, for people: keys of the job file, and a line to paste for each side that has no row yet."""
        return ", ".join(dict.fromkeys(UNNAMED_SIDE.sub(row_to_paste, key) for key in self.supply))


@dataclass(slots=True)
class Reading:
    """Which job-file keys a check reads, and which of them are not given, in the order read."""

    uses: list[str] = field(default_factory=list)
    missing: list[str] = field(default_factory=list)

    def take(self, key: str, value: T | None) -> T:
        """The value, noted under its key.  Where it is None, `missing` holds the key: look there before computing."""
        if key not in self.uses:
            self.uses.append(key)
        if value is None and key not in self.missing:
            self.missing.append(key)
        return cast("T", value)

    def unknown(self, id: str, title: str, *, source: str = "", why: str = "", confirm: str = "") -> Check:
        """The check that can't be made for want of what is missing; why: said instead, where something is given."""
        check = replace(unknown(id, title, self.missing, source=source), uses=tuple(self.uses), confirm=confirm)
        return replace(check, steps=(Step(text=why),)) if why else check


def judged(demand: float, capacity: float) -> Status:
    """`pass` where the capacity reaches the demand."""
    return "pass" if capacity >= demand else "fail"


def combined(statuses: Iterable[Status]) -> Status:
    """Any fail gives fail; else any unknown gives unknown; else pass.  Nothing gives unknown."""
    seen = list(statuses)
    if "fail" in seen:
        return "fail"
    if "unknown" in seen or not seen:
        return "unknown"
    return "pass"


def unknown(id: str, title: str, supply: Iterable[str], *, source: str = "") -> Check:
    """A check that can't be made for want of the job-file keys in `supply`."""
    keys = tuple(supply)
    return Check(
        id=id,
        title=title,
        status="unknown",
        steps=(Step(text=NOT_GIVEN + ", ".join(keys)),),
        source=source,
        supply=keys,
    )
