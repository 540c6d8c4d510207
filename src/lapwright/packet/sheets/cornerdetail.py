"""Inside and outside corners of a base flashing, in plan: the gussets that close them.

In each flashing ply one upright gusset runs the whole girth round the corner, half on either face, and a square one at
the foot closes the field legs, which part at an outside corner and are slit at an inside one.
Source: common practice, no source; sizes from defaults/details.csv and the rules
"""

from __future__ import annotations

from lapwright.defaults.si import default_si
from lapwright.packet.drawing import Fill, Points, Stroke, rectangle
from lapwright.packet.sheets.dims import LAYER
from lapwright.packet.sheets.section import Section
from lapwright.packet.sheets.substrate import Job

SHOWN, WALL, OFF = 0.16, 0.1, 0.008  # roof shown beyond the gusset; wall as drawn; uprights drawn off the face [m]


def corner_plan(job: Job, *, inside: bool, title: str) -> Section:
    """The plan of a corner: the roof at the lower left, the walls' faces along x = 0 and y = 0."""
    section = Section(title)
    wide, foot = default_si("details", "gusset_width"), default_si("details", "gusset_foot")
    cant = job.rule("cant")
    legs = [default_si("details", name) for name in ("backer_leg", "field_leg")]
    reach = cant + max(legs[1], foot / 2) + SHOWN
    far = 0.0 if inside else wide / 2 + SHOWN
    draw_roof(section, (reach, far), inside=inside)
    for off, words in ((cant, f"toe of the cant, {job.words(cant)} from the face"), *legs_of(job, cant, legs)):
        line = parallel(off, reach, far, inside=inside)
        section.items.append(Stroke(line, LAYER, line="hidden", weight="thin"))
        along = 0.02 + off * 0.3
        at = (line[0][0] + along, line[0][1]) if inside else (line[0][0], line[0][1] - along)
        section.note(at, words, "left")
    low = foot_from(cant, foot, inside=inside)
    square = rectangle(low, low, foot, foot)
    section.items += [
        Fill((square,), LAYER, pattern="diagonal", ink="grey"),
        Stroke(square, LAYER, weight="heavy", closed=True),
    ]
    section.note((low + foot * 0.8, low + foot * 0.1), f"foot gusset, {job.words(foot)} square, in each flashing ply")
    section.line(parallel(OFF, wide / 2 + OFF, wide / 2 + OFF, inside=inside), weight="outline", ink="accent")
    at = (-OFF, -wide * 0.3) if inside else (-OFF, wide * 0.3)
    section.note(at, f"upright gusset, {job.words(wide)} wide, the whole girth, in each flashing ply")
    draw_sizes(section, job, (wide, foot, cant), inside=inside)
    order = "slit to the corner" if inside else "cut square at the corner and part there"
    section.remarks += [
        "Plan. Dashed: toe of the cant and ends of the field legs.",
        f"The field legs of the flashing are {order}; the gussets of the backer lie under the cap flashing's.",
    ]
    return section


def foot_from(cant: float, foot: float, *, inside: bool) -> float:
    """Where the square at the foot begins, west and south: in the corner of the faces, or about the cant's toe [m]."""
    return -foot if inside else -cant - foot / 2


def legs_of(job: Job, cant: float, legs: list[float]) -> list[tuple[float, str]]:
    """How far from the face each leg ends, and its words."""
    names = ("backer", "cap flashing")
    return [(cant + leg, f"leg of the {name}, {job.words(leg)}") for leg, name in zip(legs, names, strict=True)]


def parallel(off: float, reach: float, far: float, *, inside: bool) -> Points:
    """A line off both faces, round the corner: as far as `reach` on an inside corner, `far` on an outside one."""
    if inside:
        return ((-reach, -off), (-off, -off), (-off, -reach))
    return ((-off, far), (-off, -off), (far, -off))


def draw_roof(section: Section, reaches: tuple[float, float], *, inside: bool) -> None:
    """The roof and the walls."""
    reach, far = reaches
    if inside:
        section.part(rectangle(-reach, -reach, reach, reach), "faint", ink="grey")
        wall: Points = ((-reach, 0.0), (0.0, 0.0), (0.0, -reach), (WALL, -reach), (WALL, WALL), (-reach, WALL))
    else:
        roof: Points = ((-reach, -reach), (far, -reach), (far, 0.0), (0.0, 0.0), (0.0, far), (-reach, far))
        section.part(roof, "faint", ink="grey")
        wall = rectangle(0.0, 0.0, far, far)
    section.part(wall, "concrete", weight="medium")
    at = (WALL / 2, WALL / 2) if inside else (far * 0.7, far * 0.7)
    section.note(at, "wall, parapet or curb")


def draw_sizes(section: Section, job: Job, sizes: tuple[float, float, float], *, inside: bool) -> None:
    """Sizes of both gussets."""
    wide, foot, cant = sizes
    low = foot_from(cant, foot, inside=inside)
    section.dim((low, low), (low + foot, low), -7.0, job.words(foot))
    section.dim((low, low), (low, low + foot), -7.0, job.words(foot))
    half = wide / 2
    if inside:
        section.dim((-half, WALL), (0.0, WALL), 6.0, job.words(half))
        section.dim((WALL, -half), (WALL, 0.0), 6.0, job.words(half))
    else:
        top = half + SHOWN
        section.dim((0.0, top), (half, top), 6.0, job.words(half))
        section.dim((top, 0.0), (top, half), 6.0, job.words(half))
