"""The paper of the packet: sheet sizes and what is left on them for drawings and text [mm]."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Size = tuple[float, float]
PAPERS: Mapping[str, Size] = MappingProxyType({"letter": (215.9, 279.4), "a4": (210.0, 297.0)})
MARGIN = 12.0
BLOCK = 13.0  # the title block at the foot of every page
GAP = 4.0
DAY_PLAN = 77.0  # height of the plan on a day sheet
WARM_CHART = 66.0  # height of the chart on the page of warm rolls


def paper_size(paper: str, *, landscape: bool = False) -> Size:
    """Width and height of a sheet; letter where the name is not known."""
    width, height = PAPERS.get(paper, PAPERS["letter"])
    return (height, width) if landscape else (width, height)


def body(paper: str, *, landscape: bool = False) -> Size:
    """What is left inside the margins and above the title block."""
    width, height = paper_size(paper, landscape=landscape)
    return (width - 2 * MARGIN, height - 2 * MARGIN - BLOCK - GAP)


def plate_size(paper: str, *, landscape: bool) -> Size:
    """A drawing that fills its page; a hair less than the body, so that rounding never pushes it to the next page."""
    width, height = body(paper, landscape=landscape)
    return (width, height - 0.5)


def day_plan_size(paper: str) -> Size:
    """The plan on a day sheet."""
    return (body(paper)[0], DAY_PLAN)
