"""The views by name, each loaded only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import MappingProxyType
from typing import Any, Protocol

from lapwright.faults import Fault, Refused
from lapwright.plan.desk.stages import JobAsk, Stages

Json = dict[str, Any]


class Tell(Protocol):
    """Words about a step that is done, or a first answer."""

    def __call__(self, words: str) -> None:
        """A step is done."""

    def draft(self, value: Any) -> None:  # noqa: ANN401  # plain values of any shape
        """A first answer, less than the whole."""


View = Callable[[Stages, JobAsk, Mapping[str, str], Tell], Json]


@dataclass(frozen=True, slots=True)
class Asked:
    """A view and whether its answer is kept.  acts: it writes files, so a page asks for it with its token."""

    view: View
    is_kept: bool = True
    acts: bool = False


# Name -> module of lapwright.plan.views that has a function `view` (and `IS_KEPT = False` where its
# answer hangs on more than the job and its options, `ACTS = True` where it writes files).
VIEWS: Mapping[str, str] = MappingProxyType(
    {
        "card": "card",
        "checks": "checks",
        "choices": "choices",
        "compare": "compare",
        "days": "days",
        "hourreadings": "hourreadings",
        "hours": "hours",
        "hoursday": "hoursday",
        "nextday": "nextday",
        "order": "order",
        "packet": "packet",
        "roof": "roof",
        "summary": "summary",
    }
)


def find(name: str) -> Asked:
    """The view of a name.

    Raises: Refused
    """
    if name not in VIEWS:
        raise Refused([Fault("view", 0, 0, "", name, "one of " + ", ".join(VIEWS), "")])
    module = import_module(f"lapwright.plan.views.{VIEWS[name]}")
    return Asked(module.view, getattr(module, "IS_KEPT", True), getattr(module, "ACTS", False))
