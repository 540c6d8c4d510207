"""Base flashing in section: at a wall or parapet, and at a curb; with its cant.

The plies run up the cant as far as the rules say; a backer and a cap flashing cover them, each with its leg on the
field.  Heights are above the finished roof.
Source: common practice, no source; sizes from the job and from the layout's flashing pieces
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Sheet
from lapwright.defaults.si import default_si
from lapwright.layout.values import Detail
from lapwright.packet.drawing import rectangle
from lapwright.packet.sheets.buildup import Buildup, Path
from lapwright.packet.sheets.section import Section, break_line
from lapwright.packet.sheets.substrate import PLIES, REMARK, Job, drawn_thickness, sheet_words, substrate

FIELD_SHOWN, WALL_THICK, CURB_TOP = 0.12, 0.1, 0.02
NAIL, TOP_NAILS = 0.04, 0.025  # drawn length in the wall; from the flashing's top [m]
OVER, LAP_SHOWN = 0.06, 0.1016  # wall shown above the flashing; drawn height of a counterflashing [m]
ROOT2 = math.sqrt(2.0)


@dataclass(frozen=True, slots=True)
class Stand:
    """What is flashed: its name in words, its kind, its height [m] (None: not given), its flashing pieces.

    has_top: what lies over its top is drawn.  rows: heights of its rows of fasteners part-way up [m].
    """

    words: str
    kind: str
    height: float | None
    flashings: tuple[Detail, ...]
    has_top: bool = True
    rows: tuple[float, ...] = ()

    @property
    def is_curb(self) -> bool:
        """Low enough to be drawn whole, with its top."""
        return self.kind not in ("wall", "parapet")


@dataclass(slots=True)
class WallDrawing:
    """A wall being drawn: its face at x = 0, the roof at its left; stations count from the roof's left end."""

    section: Section
    job: Job
    stand: Stand
    build: Buildup
    toe: float
    head: float

    @property
    def heel(self) -> float:
        """Station of the top of the cant."""
        return self.toe + self.job.rule("cant") * ROOT2


def flashing_section(job: Job, stand: Stand, *, title: str) -> Section:
    """The section across a wall, parapet or curb."""
    cant = job.rule("cant")
    leg = max((piece.parts.get("field", 0.0) for piece in stand.flashings), default=0.15)
    finished = sum(drawn_thickness(ply.sheet) for ply in job.field_plies)
    rise = flashing_rise(job, stand) + finished
    length = leg + cant + FIELD_SHOWN
    points = ((-length, 0.0), (-cant, 0.0), (0.0, cant), (0.0, max(rise, cant + 0.02)))
    if cant <= 0:
        points = ((-length, 0.0), (0.0, 0.0), (0.0, max(rise, 0.02)), (0.0, max(rise, 0.02) + 0.001))
    build = Buildup(Path(points))
    drawing = WallDrawing(Section(title), job, stand, build, length - cant, build.path.stations[-1])
    substrate(drawing.section, job, -length, 0.0)
    draw_wall(drawing, finished, rise)
    draw_cant(drawing)
    draw_plies(drawing)
    draw_flashings(drawing)
    draw_fasteners(drawing, finished, rise)
    draw_heights(drawing, finished, rise)
    drawing.section.remarks += remarks(job, stand)
    return drawing.section


def flashing_rise(job: Job, stand: Stand) -> float:
    """How high the flashing stands above the finished roof [m]: as the layout cut it, else as the rule asks."""
    heights = [piece.parts["wall"] + job.rule("cant") for piece in stand.flashings if "wall" in piece.parts]
    return max(heights, default=job.paper.rules.flashing_height)


def draw_wall(drawing: WallDrawing, finished: float, rise: float) -> None:
    """The wall behind, whole where its height is shown, else broken off."""
    section, stand = drawing.section, drawing.stand
    deep = -min(y for item in section.items for _, y in getattr(item, "points", ((0.0, 0.0),)))
    top = rise if stand.height is None else min(stand.height + finished, rise + OVER)
    is_whole = stand.height is not None and stand.height + finished <= rise + OVER
    section.part(
        rectangle(0.0, -deep, WALL_THICK, deep + top), "wood" if stand.is_curb else "concrete", weight="medium"
    )
    if is_whole and stand.has_top:
        section.line(((-0.02, top + CURB_TOP), (WALL_THICK + 0.02, top + CURB_TOP)), weight="heavy")
        section.line(((-0.02, top + CURB_TOP), (-0.02, top - 0.03)), weight="heavy")
        words = "flange or cover of the unit, laps the flashing" if stand.is_curb else "coping, as designed"
        section.note((WALL_THICK * 0.6, top + CURB_TOP), words)
    elif not is_whole:
        section.line(break_line((0.0, top), (WALL_THICK, top), 0.008), weight="thin")
    section.note((WALL_THICK * 0.5, top * 0.75), stand_words(drawing))


def stand_words(drawing: WallDrawing) -> str:
    """What is flashed and how high it is."""
    height = drawing.stand.height
    tall = f"{drawing.job.tall(height)} above the finished roof" if height is not None else "height not given"
    return f"{drawing.stand.words}: {tall}"


def draw_cant(drawing: WallDrawing) -> None:
    """The cant strip."""
    cant = drawing.job.rule("cant")
    if cant > 0:
        drawing.section.part(((-cant, 0.0), (0.0, 0.0), (0.0, cant)), "wood")
        drawing.section.note((-cant * 0.3, cant * 0.25), f"cant {drawing.job.words(cant)} by {drawing.job.words(cant)}")
        drawing.section.dim((-cant, 0.0), (0.0, 0.0), -5.0, drawing.job.words(cant))


def draw_plies(drawing: WallDrawing) -> None:
    """The field plies, each up to where the rules end it."""
    section, job = drawing.section, drawing.job
    x = drawing.build.path.points[0][0] + 0.02
    for ply in job.field_plies:
        up = job.rule("base_up_wall" if ply is job.field_plies[-2] else "cap_up_wall")
        end = min(drawing.heel + up, drawing.head)
        thick = drawn_thickness(ply.sheet)
        ring = drawing.build.lay(0.0, end, thick)
        section.part(ring, PLIES.get(ply.ply, "diagonal"), ink="grey" if ply.ply == "cap" else "ink")
        where = f"{job.words(up)} above the cant" if up > 0 else "to the top of the cant"
        words = f"{sheet_words(f'{ply.ply} ply', ply.sheet, job.units)}; {where}"
        section.note((x, drawing.build.height(0.02) - thick / 2), words, "left")
        x += 0.014


def draw_flashings(drawing: WallDrawing) -> None:
    """Backer and cap flashing, from the leg on the field to the top; the layout lists them in that order."""
    by_ply: dict[str, Detail] = {}
    for piece in drawing.stand.flashings:
        by_ply.setdefault(piece.ply, piece)
    for k, piece in enumerate(by_ply.values()):
        sheet = drawing.job.paper.sheets.get(piece.sheet)
        if sheet is not None:
            draw_flashing(drawing, piece, sheet, is_cap=k > 0)
    if not by_ply:
        drawing.section.remarks.append("The layout holds no flashing here.")


def draw_flashing(drawing: WallDrawing, piece: Detail, sheet: Sheet, *, is_cap: bool) -> None:
    """One ply of flashing, with its leg and girth."""
    section, job, build = drawing.section, drawing.job, drawing.build
    leg, thick = piece.parts.get("field", 0.0), drawn_thickness(sheet)
    ring = build.lay(drawing.toe - leg, drawing.head, thick)
    if is_cap:
        section.part(ring, "solid", ink="grey", weight="medium")
    else:
        section.part(ring, "cross")
    down = 0.03 if is_cap else 0.055
    at = build.path.at(drawing.head - down, build.height(drawing.head - 0.03) - thick / 2)
    name = "cap flashing" if is_cap else "flashing backer"
    section.note(at, f"{sheet_words(name, sheet, job.units)}, girth {job.words(piece.length)}", "left")
    foot = build.path.points[0][0] + drawing.toe
    level = build.height(max(drawing.toe - leg * 0.5, 0.0))
    section.dim((foot, level), (foot - leg, level), 15.0 if is_cap else 7.0, f"leg {job.words(leg)}")


def draw_fasteners(drawing: WallDrawing, finished: float, rise: float) -> None:
    """Nails through the top of the flashing, and through each row part-way up, with the row's height."""
    section, job, stand = drawing.section, drawing.job, drawing.stand
    if not stand.flashings:
        return
    apart = job.words(default_si("coverage", "top_nail_spacing"))
    for high in (*stand.rows, rise - finished - TOP_NAILS):
        y, is_row = finished + high, high in stand.rows
        section.line(((-build_up(drawing), y), (NAIL, y)), weight="medium")
        words = f"row of fasteners part-way up, {apart} apart" if is_row else f"fasteners at the top, {apart} apart"
        section.note((NAIL * 0.6, y), words)
        if is_row:
            section.dim((WALL_THICK + 0.02, finished), (WALL_THICK + 0.02, y), 11.0, job.words(high))


def build_up(drawing: WallDrawing) -> float:
    """Drawn thickness of what is laid at the top of the flashing [m]."""
    return drawing.build.height(drawing.head - 0.01)


def draw_heights(drawing: WallDrawing, finished: float, rise: float) -> None:
    """Heights above the finished roof, and the plies' reach up the wall."""
    section, job = drawing.section, drawing.job
    x = WALL_THICK + 0.02
    high = rise - finished
    section.dim((x, finished), (x, finished + high), 5.0, f"flashing {job.words(high)}")
    section.line(((-0.05, finished), (x, finished)), weight="hair", hidden=True)
    up, cant = job.rule("base_up_wall"), job.rule("cant")
    if up > 0:
        section.dim((WALL_THICK, cant), (WALL_THICK, cant + up), -4.0, job.words(up))
    asked = job.paper.rules.flashing_height
    if drawing.stand.height is not None and drawing.stand.height < asked - 1e-6:
        high_words = job.words(drawing.stand.height)
        section.remarks.append(f"{drawing.stand.words} stands {high_words} high; {job.words(asked)} is asked.")


def remarks(job: Job, stand: Stand) -> Sequence[str]:
    """What is said under the section."""
    least = job.words(job.paper.rules.flashing_height)
    top = "The top of the flashing is fastened and counterflashed as specified."
    return (
        REMARK,
        f"Flashing stands at least {least} above the finished roof. {top if not stand.is_curb else ''}".strip(),
    )
