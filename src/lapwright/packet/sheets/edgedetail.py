"""The metal edge in section, for two and three plies.

Two plies: base, strip, metal in a mastic bed, cap.  Three plies: the interply lies where the strip would.  The ply next
under the cap runs past the edge and is turned down; the cap is held back from the metal's edge and the gap is filled.
Source: common practice, no source; numbers from the job, defaults/details.csv and defaults/fasten.csv
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.assembly.values import Sheet
from lapwright.defaults.si import default_number, default_si
from lapwright.packet.drawing import Pt, rectangle
from lapwright.packet.sheets.buildup import SLOPE, Buildup, Path
from lapwright.packet.sheets.section import Section
from lapwright.packet.sheets.substrate import BOARD_SHOWN, PLIES, REMARK, Job, drawn_thickness, sheet_words, substrate
from lapwright.roof.values import Metal

INBOARD = 0.11  # roof shown beyond the strip or flange [m]
FACE_SHOWN, FLANGE_SHOWN = 0.1, 0.1  # drawn where the metal's sizes are not given [m]
KICK, CLEAR = 0.012, 0.003  # the metal's lower hem; between metal and the plies behind it [m]


@dataclass(slots=True)
class EdgeDrawing:
    """A metal edge being drawn: the edge stands at x = 0 and station `length`, the roof at its left."""

    section: Section
    job: Job
    metal: Metal
    build: Buildup
    length: float
    corner: Pt = (0.0, 0.0)

    @property
    def is_two_ply(self) -> bool:
        """A strip lies under the metal."""
        return len(self.job.field_plies) == 2

    @property
    def flange(self) -> float:
        """Flange as drawn [m]."""
        return FLANGE_SHOWN if self.metal.flange is None else self.metal.flange

    @property
    def face(self) -> float:
        """Face as drawn [m]."""
        return FACE_SHOWN if self.metal.face is None else self.metal.face

    @property
    def out(self) -> float:
        """Where the metal's face stands, outside the plies turned down behind it [m]."""
        return max(self.build.height(self.build.path.stations[-1]), 0.0) + CLEAR

    @property
    def inner(self) -> float:
        """Where the flange ends on the roof: its width from the face [m]."""
        return self.out - self.flange

    @property
    def turned(self) -> float:
        """How far plies run past the edge [m]."""
        return self.job.rule("base_over_edge")

    def top(self, x: float) -> Pt:
        """The top of what lies at a distance x from the edge, x under 0 [m]."""
        return (x, self.build.height(self.length + x))


def metal_edge_section(job: Job, metal: Metal | None, *, title: str) -> Section:
    """The section across a metal edge."""
    given = metal or Metal()
    two = len(job.field_plies) == 2
    flange = FLANGE_SHOWN if given.flange is None else given.flange
    length = max(job.rule("edge_strip") if two else 0.0, flange) + INBOARD
    turned = job.rule("base_over_edge")
    points = ((-length, 0.0), (0.0, 0.0), (0.0, -turned)) if turned > 0 else ((-length, 0.0), (0.0, 0.0))
    drawing = EdgeDrawing(Section(title), job, given, Buildup(Path(points)), length)
    substrate(drawing.section, job, -length, 0.0)
    draw_nailer(drawing)
    draw_under(drawing)
    if two:
        draw_strip(drawing)
    draw_bed(drawing)
    draw_metal(drawing)
    draw_fasteners(drawing)
    draw_cap(drawing)
    drawing.section.remarks += remarks(two=two)
    return drawing.section


def draw_nailer(drawing: EdgeDrawing) -> None:
    """A wood nailer in place of the boards at the edge; none where there are no boards."""
    assembly = drawing.job.assembly
    boards = [board for board in (assembly.insulation, assembly.cover_board) if board is not None]
    depth = sum(BOARD_SHOWN if board.thickness is None else board.thickness for board in boards)
    if depth > 0:
        wide = drawing.flange + 0.03
        drawing.section.part(rectangle(-wide, -depth, wide, depth), "wood", weight="medium")
        drawing.section.note((-wide * 0.2, -depth * 0.85), "wood nailer at the edge: width and fixing as designed")


def draw_under(drawing: EdgeDrawing) -> None:
    """Every ply but the cap: the one next under it past the edge and turned down, one below held back as the cap is."""
    section, job, turned = drawing.section, drawing.job, drawing.turned
    x = -drawing.length + 0.02
    for ply in job.field_plies[:-1]:
        thick = drawn_thickness(ply.sheet)
        end = turned if ply is job.field_plies[-2] else -job.rule("cap_back_from_edge")
        section.part(drawing.build.lay(0.0, drawing.length + end, thick), PLIES.get(ply.ply, "diagonal"))
        at = drawing.top(x)
        section.note((x, at[1] - thick / 2), sheet_words(f"{ply.ply} ply", ply.sheet, job.units), "left")
        x += 0.012
    if turned > 0:
        out = drawing.build.height(drawing.build.path.stations[-1])
        name = job.field_plies[-2].ply
        section.note((out * 0.5, -turned * 0.8), f"{name}: {job.words(turned)} past the edge, turned down")
        section.dim((out, 0.0), (out, -turned), 8.0, job.words(turned))


def strip_sheet(job: Job) -> Sheet:
    """The sheet that strips are cut from: as the layout has it, else the base's."""
    names = [detail.sheet for detail in job.paper.layout.details if detail.kind == "strip"]
    base = job.field_plies[0].sheet
    return job.paper.sheets.get(names[0], base) if names else base


def draw_strip(drawing: EdgeDrawing) -> None:
    """The strip under the metal of a two-ply roof, from the edge inwards."""
    section, job = drawing.section, drawing.job
    wide, sheet = job.rule("edge_strip"), strip_sheet(job)
    thick = drawn_thickness(sheet)
    fillet(drawing, -wide, thick, "strip meets base")
    section.part(drawing.build.lay(drawing.length - wide, drawing.length, thick), PLIES["strip"])
    at = drawing.top(-wide + 0.035)
    section.note((at[0], at[1] - thick / 2), sheet_words("edge strip", sheet, job.units), "left")
    section.dim(drawing.top(-wide), (0.0, at[1]), 24.0, f"strip {job.words(wide)}")


def fillet(drawing: EdgeDrawing, x: float, step: float, where: str) -> None:
    """Mastic in the corner at the inner end of a layer, `step` high."""
    low = drawing.top(x)[1]
    drawing.section.part(((x - step * SLOPE, low), (x, low), (x, low + step)), "solid")
    drawing.section.note((x - step * SLOPE * 0.25, low + step * 0.3), f"trowel-grade SBS mastic where {where}", "left")


def draw_bed(drawing: EdgeDrawing) -> None:
    """The mastic bed under the flange, as thick as the middle of its limits."""
    job, inner = drawing.job, drawing.inner
    least, most = default_si("details", "mastic_bed_least"), default_si("details", "mastic_bed_most")
    bed = (least + most) / 2
    fillet(drawing, inner, bed, f"metal meets {'strip' if drawing.is_two_ply else job.field_plies[-2].ply}")
    drawing.section.part(drawing.build.lay(drawing.length + inner, drawing.length, bed), "dots")
    at = drawing.top(inner * 0.4)
    words = f"bed of trowel-grade SBS mastic, {job.words(least)} to {job.words(most)} thick"
    drawing.section.note((at[0], at[1] - bed / 2), words)


def draw_metal(drawing: EdgeDrawing) -> None:
    """The metal as a heavy line along its flange and face, with a hem."""
    section, job, metal, out = drawing.section, drawing.job, drawing.metal, drawing.out
    top = drawing.top(drawing.inner / 2)[1]
    drawing.corner = (out, top)
    low = top - drawing.face
    section.line(((drawing.inner, top), (out, top), (out, low), (out + KICK, low - KICK)), weight="outline")
    section.note((out, top - drawing.face * 0.85), metal_words(drawing))
    flange = f"flange {job.words(metal.flange)}" if metal.flange is not None else "flange not given"
    section.dim((drawing.inner, top), (out, top), 16.0, flange)
    face = f"face {job.words(metal.face)}" if metal.face is not None else "face not given"
    section.dim((out + KICK, top), (out + KICK, low), 11.0, face)


def metal_words(drawing: EdgeDrawing) -> str:
    """What the metal is: kind, gauge; primed, and never thinner than its calculation sheet asks for such a face."""
    metal = drawing.metal
    kind = metal.kind or "edge metal, kind not given"
    gauge = f", {metal.gauge} gauge" if metal.gauge is not None else ", gauge not given"
    if metal.gauge is not None and metal.kind == "copper":
        gauge = f", {metal.gauge} oz/sf"
    asked = {(name, face): least for name, face, least in drawing.job.paper.engineered.gauges}
    least = None if metal.kind is None or metal.face is None else asked.get((metal.kind, metal.face))
    return f"{kind}{gauge}{'' if least is None else f' (at least {least})'}, flange primed"


def draw_fasteners(drawing: EdgeDrawing) -> None:
    """Two rows of nails through the flange; the second is broken, since it stands between those of the first."""
    section, job = drawing.section, drawing.job
    apart, deep = default_si("fasten", "metal_nail_offset"), default_si("details", "nail_length")
    least, most = default_si("fasten", "metal_nail_spacing"), default_si("details", "nail_spacing_most")
    top = drawing.corner[1]
    centre = (drawing.inner + min(drawing.out, 0.0)) / 2
    for x, hidden in ((centre - apart / 2, False), (centre + apart / 2, True)):
        section.line(((x, top), (x, top - deep)), weight="medium", hidden=hidden)
        section.line(((x - 0.004, top), (x + 0.004, top)), weight="outline")
    rows = round(default_number("fasten", "metal_nail_rows"))
    given = drawing.metal.nail_spacing
    spaced = f"{job.words(least)} to {job.words(most)}" if given is None else job.words(given)
    words = f"fasteners {spaced} apart in {rows} rows offset {job.words(apart)}"
    section.note((centre + apart / 2, top - deep * 0.9), words)


def draw_cap(drawing: EdgeDrawing) -> None:
    """The cap, held back from the metal's edge, and the bead that fills the gap."""
    section, job = drawing.section, drawing.job
    back, sheet = job.rule("cap_back_from_edge"), job.field_plies[-1].sheet
    thick = drawn_thickness(sheet)
    out, top = drawing.corner
    end = out - back
    straight = Path(((-drawing.length, 0.0), (max(out, 0.0) + 0.001, 0.0)))
    build = Buildup(straight, drawing.build.top_until(drawing.length))
    section.part(build.lay(0.0, drawing.length + end, thick), PLIES["cap"], ink="grey")
    section.note(
        (-drawing.length + 0.03, build.height(0.03) - thick / 2), sheet_words("cap ply", sheet, job.units), "left"
    )
    section.note((end - 0.02, top + thick * 0.75), "cap: welded and rolled along the whole edge, never over it")
    if back > 0:
        bead = ((end, top), (end, top + thick), (end + back * 0.35, top + thick * 0.72), (out, top))
        section.part(bead, "solid", ink="accent")
        words = "bead of caulk-grade SBS mastic in the gap, granules broadcast in it"
        section.note((end + back * 0.4, top + thick * 0.35), words)
        section.dim((end, top + thick), (out, top + thick), 7.0, job.words(back))


def remarks(*, two: bool) -> list[str]:
    """What is said under the section."""
    order = "base, strip, mastic, metal, mastic, cap" if two else "base, interply, mastic, metal, mastic, cap"
    return [REMARK, f"Order of work: {order}. The metal is set before the cap course that covers it."]
