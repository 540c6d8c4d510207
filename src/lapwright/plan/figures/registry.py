"""The figures by name, each loaded only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lapwright.faults import Fault, Refused
from lapwright.plan.figures.figure import Figure
from lapwright.plan.figures.option import near


def _roll() -> Figure:
    from lapwright.plan.figures.roll import ROLL

    return ROLL


def _store() -> Figure:
    from lapwright.plan.figures.store import STORE

    return STORE


def _sheet() -> Figure:
    from lapwright.plan.figures.sheet import SHEET

    return SHEET


def _surface() -> Figure:
    from lapwright.plan.figures.surface import SURFACE

    return SURFACE


def _weld() -> Figure:
    from lapwright.plan.figures.weld import WELD

    return WELD


def _cord() -> Figure:
    from lapwright.plan.figures.cord import CORD

    return CORD


def _wind() -> Figure:
    from lapwright.plan.figures.wind import WIND

    return WIND


def _drain() -> Figure:
    from lapwright.plan.figures.drain import DRAIN

    return DRAIN


def _chill() -> Figure:
    from lapwright.plan.figures.chill import CHILL

    return CHILL


FIGURES: Mapping[str, Callable[[], Figure]] = MappingProxyType(
    {
        "roll": _roll,
        "store": _store,
        "sheet": _sheet,
        "surface": _surface,
        "weld": _weld,
        "cord": _cord,
        "wind": _wind,
        "drain": _drain,
        "chill": _chill,
    }
)
NAMES = tuple(FIGURES)


def figure(name: str) -> Figure:
    """The figure of a name.

    Raises: Refused with the nearest name.
    """
    if name not in FIGURES:
        write = f"lapwright figure {near(name, NAMES) or NAMES[0]}"
        raise Refused([Fault("figure", 0, 0, "NAME", name, "one of " + ", ".join(NAMES), write)])
    return FIGURES[name]()
