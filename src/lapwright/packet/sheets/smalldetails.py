"""Sections in the field of the roof: a pipe, and the tie-off at a day's end.

Source: common practice, no source; sizes from the job and defaults/details.csv
"""

from __future__ import annotations

from lapwright.defaults.si import default_si
from lapwright.packet.drawing import Fill, Pt, rectangle
from lapwright.packet.sheets.buildup import SLOPE, Buildup, Path
from lapwright.packet.sheets.dims import LAYER
from lapwright.packet.sheets.section import Section
from lapwright.packet.sheets.substrate import PLIES, REMARK, Job, drawn_thickness, sheet_words, substrate

PIPE_FIELD, PIPE_OVER = 0.22, 0.05  # roof shown on each side; pipe shown above its flashing [m]
TIE_FIELD = 0.16
BEAD = 0.02


def pipe_section(job: Job, diameter: float, *, title: str) -> Section:
    """The section through a pipe: sheets slit and fitted round it, never lapped there."""
    section = Section(title)
    half, tall = diameter / 2, job.paper.rules.flashing_height
    deep = substrate(section, job, -PIPE_FIELD - half, PIPE_FIELD + half)
    build = Buildup(Path(((-PIPE_FIELD - half, 0.0), (PIPE_FIELD + half, 0.0))))
    x = -PIPE_FIELD - half + 0.02
    for ply in job.field_plies:
        thick = drawn_thickness(ply.sheet)
        ring = build.lay(0.0, build.path.stations[-1], thick)
        section.part(ring, PLIES.get(ply.ply, "diagonal"), ink="grey" if ply.ply == "cap" else "ink")
        words = f"{sheet_words(f'{ply.ply} ply', ply.sheet, job.units)}, slit and fitted to the pipe"
        section.note((x, build.height(0.02) - thick / 2), words, "left")
        x += 0.014
    finished = build.height(0.02)
    section.part(
        rectangle(-half, -deep - 0.01, diameter, deep + 0.01 + finished + tall + PIPE_OVER), "faint", weight="heavy"
    )
    top = finished + tall
    for side in (-1, 1):
        section.line(((side * (half + 0.1), finished), (side * (half + 0.006), finished), (side * (half + 0.006), top)))
    section.note(
        (half + 0.006, finished + tall * 0.6), "pipe flashing as specified; its flange in a mastic bed, stripped in"
    )
    section.note((0.0, top + PIPE_OVER * 0.5), f"pipe {job.words(diameter)} outside")
    section.dim((half + 0.02, finished), (half + 0.02, top), 9.0, f"at least {job.words(tall)}")
    section.dim((-half, top + PIPE_OVER), (half, top + PIPE_OVER), 5.0, job.words(diameter))
    section.remarks += [REMARK, "Sheets are slit at a pipe, not lapped: no end or side lap is made there."]
    return section


def tie_off_section(job: Job, *, title: str) -> Section:
    """The section along the fall through a day's end: water from the open side runs over the strip."""
    section = Section(title)
    strip, lap = default_si("details", "tie_off_strip"), default_si("details", "tie_off_lap")
    left, right = -lap - TIE_FIELD, strip - lap + TIE_FIELD
    substrate(section, job, left, right)
    build = Buildup(Path(((left, 0.0), (right, 0.0))))
    start, x = -left, left + 0.02
    for ply in job.field_plies:
        thick = drawn_thickness(ply.sheet)
        ring = build.lay(0.0, start, thick)
        section.part(ring, PLIES.get(ply.ply, "diagonal"), ink="grey" if ply.ply == "cap" else "ink")
        section.note((x, build.height(0.02) - thick / 2), sheet_words(f"{ply.ply} ply", ply.sheet, job.units), "left")
        x += 0.014
    step = build.height(start - 0.01)
    mastic = ((0.0, 0.0), (0.0, step), (step * SLOPE, 0.0))
    section.part(mastic, "solid")
    section.note((step * SLOPE * 0.3, step * 0.3), "trowel-grade SBS mastic at the end of the plies")
    base = job.field_plies[0].sheet
    thick = drawn_thickness(base)
    section.part(build.lay(start - lap, start - lap + strip, thick), PLIES["strip"])
    end = strip - lap
    section.part(((end, 0.0), (end, thick), (end + BEAD, 0.0)), "solid", ink="accent")
    section.note((end + BEAD * 0.25, thick * 0.3), "bead of mastic at the toe, tooled down on the open side")
    at = build.height(start - lap + 0.02)
    words = f"strip at least {job.words(strip)} wide, pressed down and rolled"
    section.note((-lap + 0.02, at - thick / 2), words, "left")
    section.dim((-lap, at), (0.0, at), 8.0, job.words(lap))
    section.dim((0.0, at), (end, at), 8.0, job.words(end))
    water(section, (right - 0.03, at + 0.09), (end * 0.3, at + 0.09))
    section.note((right - 0.05, 0.0), "open side, up the fall: old roof or deck")
    section.remarks += [
        REMARK,
        "The tie-off is made on the high side, so that water passes over it. Cut it back next morning.",
    ]
    return section


def water(section: Section, tail: Pt, head: Pt) -> None:
    """An arrow the way water runs."""
    section.line((tail, head), weight="medium")
    tip = ((head[0], head[1]), (head[0] + 0.016, head[1] + 0.005), (head[0] + 0.016, head[1] - 0.005))
    section.items.append(Fill((tip,), LAYER))
    section.note(((tail[0] * 2 + head[0]) / 3, tail[1]), "the way water runs")
