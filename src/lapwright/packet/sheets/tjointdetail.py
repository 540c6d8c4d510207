"""The corners cut at T-joints, in plan: an end lap between two side laps, the fall towards the foot of the sheet.

Three sheets lie on each other where an end lap meets a side lap.  The later piece loses its corner at the low side
lap, the earlier piece the opposing one at the high side lap, so that no three full sheets meet.
Source: common practice, no source; laps from the sheet, the cut from the rules
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.packet.drawing import Fill, Points, Ring, Stroke, rectangle
from lapwright.packet.sheets.dims import LAYER
from lapwright.packet.sheets.section import Section, break_line
from lapwright.packet.sheets.substrate import Job

BESIDE, BELOW, COURSE = 0.17, 0.09, 0.36  # shown beyond the laps; course drawn shortened to this [m]


@dataclass(frozen=True, slots=True)
class Laps:
    """End lap, side lap and length of the corner cut [m]; the later piece begins at x = 0, the course at y = 0."""

    end: float
    side: float
    cut: float

    @property
    def left(self) -> float:
        """Left end of what is shown."""
        return -BESIDE - self.cut / 2

    @property
    def right(self) -> float:
        """Right end of what is shown."""
        return max(self.end, self.cut) + BESIDE

    @property
    def line(self) -> float:
        """Height of the lap line of the course above."""
        return COURSE - self.side


def tjoint_plan(job: Job, *, title: str) -> Section:
    """The two T-joints of an end lap of the top ply."""
    section = Section(title)
    sheet = job.field_plies[-1].sheet
    laps = Laps(sheet.end_lap_ticks / 80_000, sheet.side_lap_ticks / 80_000, job.rule("corner_cut"))
    draw_sheets(section, laps)
    draw_hidden(section, laps)
    name_sheets(section, laps)
    draw_sizes(section, job, laps)
    section.remarks += [
        "Plan, water running towards the foot of the sheet; the course is drawn shortened. Dashed: covered edges.",
        "Both corners are cut before the lap is made, then heated and rolled; the caulk bead and granules go on every"
        " cut edge that shows. Probe every T-joint.",
    ]
    return section


def draw_sheets(section: Section, laps: Laps) -> None:
    """What shows from above, the lowest sheet first."""
    under = rectangle(laps.left, -BELOW, laps.right - laps.left, BELOW + laps.side)
    earlier = rectangle(laps.left, 0.0, laps.end - laps.left, COURSE)
    later: Points = (
        (laps.cut, 0.0),
        (laps.right, 0.0),
        (laps.right, COURSE),
        (0.0, COURSE),
        (0.0, laps.side),
    )
    over = rectangle(laps.left, laps.line, laps.right - laps.left, BELOW + laps.side)
    section.items += [Fill((under,), LAYER, pattern="faint")]
    section.items += [Fill((earlier,), LAYER, ink="paper"), Fill((earlier,), LAYER, pattern="diagonal", ink="grey")]
    section.items += [Fill((later,), LAYER, ink="paper")]
    section.items += [Fill((over,), LAYER, ink="paper"), Fill((over,), LAYER, pattern="dots", ink="grey")]
    section.line(((laps.left, 0.0), (laps.cut, 0.0)), weight="medium")
    section.line(((laps.right, 0.0), (laps.cut, 0.0), (0.0, laps.side), (0.0, laps.line)), weight="outline")
    section.line(((laps.left, laps.line), (laps.right, laps.line)), weight="outline")
    for x in (laps.left, laps.right):
        section.line(break_line((x, -BELOW), (x, COURSE + BELOW), 0.01), weight="thin")
    for y in (-BELOW, COURSE + BELOW):
        section.line(((laps.left, y), (laps.right, y)), weight="hair")
    for at in ((0.0, laps.line), (laps.cut * 0.3, laps.side * 0.3)):
        section.items.append(Ring(at, 0.012, LAYER, weight="medium", ink="accent"))


def draw_hidden(section: Section, laps: Laps) -> None:
    """Covered edges: the earlier piece's end with its cut corner, the later piece's edge, the lower course's top."""
    end, side, cut = laps.end, laps.side, laps.cut
    lines: tuple[Points, ...] = (
        ((end, 0.0), (end, laps.line), (end - cut, COURSE), (laps.left, COURSE)),
        ((0.0, laps.line), (0.0, COURSE), (laps.right, COURSE)),
        ((laps.left, side), (laps.right, side)),
    )
    section.items += [Stroke(line, LAYER, line="hidden", weight="thin") for line in lines]


def name_sheets(section: Section, laps: Laps) -> None:
    """The four sheets and the two cuts."""
    section.note((laps.right - 0.03, COURSE + BELOW * 0.5), "course above, laid last")
    section.note((laps.right - 0.04, COURSE * 0.5), "later piece of the course, over the earlier one")
    section.note((laps.cut * 0.45, laps.side * 0.42), "corner cut off the later piece: the earlier one shows")
    section.note((laps.right - 0.05, -BELOW * 0.5), "course below, laid first")
    section.note((laps.left + 0.03, COURSE * 0.5), "earlier piece of the course", "left")
    section.note(
        (laps.end - laps.cut * 0.5, COURSE - laps.side * 0.5), "corner cut off the earlier piece, covered", "left"
    )
    section.note((laps.left + 0.03, laps.line), "side lap: low edge of the course above", "left")
    section.note((0.0, COURSE * 0.42), "end lap: where the later piece begins", "left")


def draw_sizes(section: Section, job: Job, laps: Laps) -> None:
    """Laps and cuts."""
    end, side, cut = job.words(laps.end), job.words(laps.side), job.words(laps.cut)
    section.dim((0.0, COURSE + BELOW), (laps.end, COURSE + BELOW), 5.0, f"end lap {end}")
    section.dim((laps.left, laps.line), (laps.left, COURSE), -5.0, side)
    section.dim((laps.left, 0.0), (laps.left, laps.side), -5.0, side)
    section.dim((0.0, -BELOW), (laps.cut, -BELOW), -5.0, f"cut {cut}")
