"""Scuppers beside the weirs of fluids."""

from collections.abc import Callable
from importlib.metadata import version

from compared import Live
from fluids.open_flow import Q_weir_rectangular_full_Ackers, Q_weir_rectangular_full_Kindsvater_Carter

from lapwright.drains.weir import francis_flow_m3_s, scupper_flow_m3_s

HEADS = (0.05, 0.08, 0.12)
LIBRARY = f"fluids {version('fluids')}"
WEIRS = (("ackers", Q_weir_rectangular_full_Ackers), ("carter", Q_weir_rectangular_full_Kindsvater_Carter))
OWN = (("scupper", scupper_flow_m3_s), ("francis", francis_flow_m3_s))


def row(own: str, flow_m3_s: Callable[..., float], theirs: str, weir: Callable[..., float]) -> Live:
    """A full-width weir 1 m wide over a crest 1.5 m high."""
    return Live(
        f"drains.live-{own}-{theirs}",
        LIBRARY,
        f"{weir.__name__}, full width, 1 m wide, crest 1.5 m high",
        [f"head {head:g} m" for head in HEADS],
        lambda: ([weir(head, 1.5, 1.0) for head in HEADS], [flow_m3_s(head, width=1.0) for head in HEADS]),
        "m³/s",
        0.08,
        is_share=True,
    )


LIVE = tuple(row(own, flow, theirs, weir) for theirs, weir in WEIRS for own, flow in OWN)
