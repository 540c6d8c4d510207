"""A layout as plain values.

Frame: each area has its own (u, v) in ticks of 1/80 mm.  v runs up the fall from the area's low
point, measured along the slope; u runs across the fall, to the right when looking up the fall.
On a steep area, laid with the fall (*strapped*), u runs up the fall and v across it to the left.
A *course* is one row of a ply, a *piece* one length of sheet in it, a *run* what one course covers
without a break.  *Exposed edge* of a side lap: the low edge of the upper sheet; of an end lap: the
starting edge of the later piece.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.layout.plain import plain

UV = tuple[int, int]
XY = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Frame:
    """Places (u, v) [ticks] in the plan [m].

    origin: plan point of u = v = 0 [ticks]; across, up: unit vectors in plan along u and v; stretch: sqrt(1 + slope²).
    is_strapped: courses run with the fall, so that u is what the slope stretches, not v.
    """

    origin: tuple[float, float]
    across: tuple[float, float]
    up: tuple[float, float]
    stretch: float
    is_strapped: bool = False

    @property
    def stretches(self) -> tuple[float, float]:
        """Length on the slope over plan length, along u and along v."""
        return (self.stretch, 1.0) if self.is_strapped else (1.0, self.stretch)

    def plan(self, u: float, v: float) -> XY:
        """Plan coordinates [m] of a point of the slope frame [ticks]."""
        along, rise = (u / self.stretch, v) if self.is_strapped else (u, v / self.stretch)
        x = self.origin[0] + along * self.across[0] + rise * self.up[0]
        y = self.origin[1] + along * self.across[1] + rise * self.up[1]
        return (x / 80_000, y / 80_000)

    def slope_uv(self, x: float, y: float) -> tuple[float, float]:
        """Slope-frame coordinates [ticks] of a plan point [ticks]."""
        dx, dy = x - self.origin[0], y - self.origin[1]
        u, v = dx * self.across[0] + dy * self.across[1], dx * self.up[0] + dy * self.up[1]
        return (u * self.stretch, v) if self.is_strapped else (u, v * self.stretch)


@dataclass(frozen=True, slots=True)
class Course:
    """One row of a ply: index from 1 at the low edge; low and high edge of the sheet as laid."""

    index: int
    low: int
    high: int


@plain
class CornerCut:
    """A 45° cut: the corner it takes off, how far along the sheet's length and across its width."""

    corner: UV
    along: int
    across: int


@plain
class Piece:
    """One length of sheet as laid: rectangle u0..u1 by v0..v1; cut_length is what is cut off the roll.

    place counts the pieces of a course from the left; sequence is the order of laying, over the job.
    """

    id: str
    area: str
    ply: str
    course: int
    place: int
    u0: int
    u1: int
    v0: int
    v1: int
    cut_length: int
    sheet: str
    roll: str = ""
    sequence: int = 0
    corner_cuts: tuple[CornerCut, ...] = ()


@plain
class Lap:
    """Where one piece lies on another.  kind: side, end, strip or flashing; line: exposed edge [m, plan].

    The foot of a detail is one of a piece of the field and the detail.
    """

    id: str
    kind: str
    area: str
    ply: str
    pieces: tuple[str, str]
    line: tuple[XY, XY]
    length: float
    width: float


@plain
class TJoint:
    """Where two laps meet, three sheets thick or more: plan point [m] and both lap ids.

    kind: `field` where an end lap meets a side lap or one between planes; `detail` where a lap between details, or
    the foot of one, crosses one of the ply that they lie on, which `area` and `ply` then name.
    """

    id: str
    area: str
    ply: str
    at: XY
    laps: tuple[str, str]
    kind: str = "field"


@plain
class Roll:
    """A numbered roll and what is cut from it, in cutting order [ticks]."""

    id: str
    sheet: str
    pieces: tuple[str, ...]
    used: int
    left: int


@plain
class Detail:
    """A strip, flashing, gusset, target, length of cant or metal, or a thing set at one place.

    kind: strip, strip_corner, tie_in, flashing, gusset, target, pipe_strip, scupper_strip (cut from a sheet); metal,
    metal_corner, cleat, joint_cover, cant, fixing, expansion_cover, sump, drain_metal, pipe_flashing, scupper_metal.
    of: the edge ("side 2"), corner, opening, drain or pipe it belongs to.  sizes: length and width [m], girth split by
    part in `parts`; a flashing's length is its girth, its width runs along the wall; a metal corner's length is
    that of either leg, and metal, its corners and covers are as wide as the flange, 0 where the job gives none.
    line, at: where it stands in plan [m]. sheet, roll: empty where it is not cut from a sheet. form: inside,
    outside or straight, of a corner.
    cut_ticks: length cut off; takes_ticks: length of roll that it takes, 0 where it is cut beside another (`beside`),
    which may be a ripped piece.
    """

    id: str
    kind: str
    area: str
    of: str
    sheet: str
    ply: str
    length: float
    width: float
    roll: str = ""
    line: tuple[XY, XY] | None = None
    parts: Mapping[str, float] = field(default_factory=dict)
    takes_ticks: int = 0
    at: XY | None = None
    form: str = ""
    beside: str = ""
    cut_ticks: int = 0


@dataclass(frozen=True, slots=True)
class PlyLayout:
    """One ply on one area.

    starter: width of the first course; tolerance: how far its exposed edges may move either way before
    `ply_offset` from the ply under or over it breaks (None where nothing limits it); offset_least: the least
    distance of its side laps from those of the neighbouring plies.  begins: where the ply starts.
    """

    area: str
    ply: str
    position: int
    sheet: str
    courses: tuple[Course, ...]
    pieces: tuple[Piece, ...]
    begins: int
    starter: int
    tolerance: int | None
    offset_least: int | None
    exceptions: tuple[str, ...] = ()
    rolls: int = 0
    rolls_at_least: int = 0
    end_laps: int = 0
    end_laps_at_least: int = 0


@dataclass(frozen=True, slots=True)
class Layout:
    """Everything that is laid, over the whole job.

    rolls_at_least, end_laps_at_least: of all sheets and of all plies together, no less than the sum of theirs.
    cost: of rolls, end laps, T-joints, cuts, different lengths and rips (bill.py), in the money of the job's prices;
    cost_at_least: what any layout under the rules costs.
    """

    frames: Mapping[str, Frame]
    plies: tuple[PlyLayout, ...]
    details: tuple[Detail, ...]
    laps: tuple[Lap, ...]
    tjoints: tuple[TJoint, ...]
    rolls: tuple[Roll, ...]
    warnings: tuple[tuple[str, str], ...] = ()
    sheet_rolls_at_least: Mapping[str, int] = field(default_factory=dict)
    rolls_at_least: int = 0
    end_laps_at_least: int = 0
    cost: float = 0.0
    cost_at_least: float = 0.0

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece of every ply, in laying order."""
        found = [piece for ply in self.plies for piece in ply.pieces]
        return tuple(sorted(found, key=lambda piece: piece.sequence))


@dataclass(frozen=True, slots=True)
class CostPart:
    """One thing that a layout costs: how many of it, and money for one.

    what: roll, end_lap, t_joint, cut, new_length or new_rip.  sheet: of a roll, else empty.  seconds: work of one
    person for one, None for a roll.  is_given: price or time stands in the job file, else it is a default.
    """

    what: str
    sheet: str
    count: int
    each: float
    seconds: float | None
    is_given: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """What the layout under one aim counts and costs; no counts where the aim leaves no place for the end laps.

    rolls: by sheet, those for details included; the others as in bill.py.
    """

    aim: str
    rolls: Mapping[str, int] = field(default_factory=dict)
    end_laps: int = 0
    t_joints: int = 0
    cuts: int = 0
    lengths: int = 0
    rips: int = 0
    rolls_at_least: int = 0
    end_laps_at_least: int = 0
    cost: float = 0.0

    @property
    def is_laid(self) -> bool:
        """There is a layout under this aim."""
        return bool(self.rolls)


@dataclass(frozen=True, slots=True)
class Weighed:
    """What a layout was weighed by: its aim, its cost part by part, and what each aim comes to, its own among them.

    labour: money an hour of one person; is_labour_given: from the job file, else a default.
    """

    aim: str
    labour: float
    is_labour_given: bool
    parts: tuple[CostPart, ...]
    choices: tuple[Choice, ...]
