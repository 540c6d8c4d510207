"""Our layout of a roof beside the same roof given plainly: the one place where the comparison meets the product.

Only what goes in and what comes out is used: areas, assembly, rules, and the finished layout.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, fields
from functools import cache
from typing import Any

from layout_ask import CostsAsk, CourseGot, PieceGot, Plan, PlyAsk, RoofAsk, RulesAsk, Slab

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.layout.place import make_layout
from lapwright.layout.values import Layout, PlyLayout
from lapwright.roof.values import Area, Edge, Point

INCH = 2_032
FOOT = 24_384
GRID = 127
CENTS = 100
# the defaults of the product, restated: 120 a roll; 4, 2, 1, 3, 10 minutes at 60 an hour
ROLL = 120 * CENTS
COSTS = CostsAsk(end_lap=4 * CENTS, tjoint=2 * CENTS, cut=1 * CENTS, length=3 * CENTS, rip=10 * CENTS)

BASE = Sheet("base-sa", 39 * INCH + 762, 65 * FOOT + 7 * INCH, 3 * INCH, 6 * INCH)
CAP = Sheet("cap-sa", 39 * INCH + 762, 32 * FOOT + 10 * INCH, 3 * INCH, 6 * INCH)
ONE_PLY = (Ply("cap", CAP),)
TWO_PLIES = (Ply("base", BASE), Ply("cap", CAP))
THREE_PLIES = (Ply("base", BASE), Ply("interply", BASE), Ply("cap", CAP))


@dataclass(frozen=True)
class Case:
    """A roof without slope: slabs [ticks], plies, kinds of the low, right, high and left sides, rules that differ."""

    name: str
    slabs: tuple[Slab, ...]
    plies: tuple[Ply, ...] = TWO_PLIES
    kinds: tuple[str, str, str, str] = ("ridge", "ridge", "ridge", "ridge")
    given: tuple[tuple[str, str], ...] = ()

    @property
    def rules(self) -> Rules:
        """The job's rules."""
        return make_rules(dict(self.given))

    @property
    def area(self) -> Area:
        """The roof as the product takes it, falling south."""
        corners = list(ring(self.slabs, self.kinds))
        points = [point for point, _ in corners]
        edges = tuple(
            Edge(side, kind, a, b, height=0.3556)
            for side, ((a, kind), b) in enumerate(zip(corners, [*points[1:], points[0]], strict=True), start=1)
        )
        return Area("Main", tuple(points), edges, (0.0, -1.0), 0.0, ())


def ring(slabs: Sequence[Slab], kinds: tuple[str, str, str, str]) -> Iterator[tuple[Point, str]]:
    """The corners of the outline, counter-clockwise from the lowest left one, each with the kind of side after it."""
    low, right, high, left = kinds
    levels = [sum(slab.height for slab in slabs[:k]) for k in range(len(slabs) + 1)]
    yield (slabs[0].left, 0), low
    for k, slab in enumerate(slabs):
        after = slabs[k + 1].right if k + 1 < len(slabs) else None
        if k == 0 or slabs[k - 1].right != slab.right:
            yield (slab.right, levels[k]), right
        if after is not None and after != slab.right:
            yield (slab.right, levels[k + 1]), high if after < slab.right else low
    yield (slabs[-1].right, levels[-1]), high
    for k, slab in reversed(list(enumerate(slabs))):
        before = slabs[k - 1].left if k else slab.left
        if k == len(slabs) - 1 or slabs[k + 1].left != slab.left:
            yield (slab.left, levels[k + 1]), left
        if before != slab.left:
            yield (slab.left, levels[k]), low if before > slab.left else high


def reach(kind: str, rules: Rules, *, is_under_cap: bool) -> int:
    """How far a ply reaches past a side's line [ticks]; docs/method/layout.md, ground of a ply."""
    if kind == "metal_edge":
        return rules.base_over_edge_ticks if is_under_cap else -rules.cap_back_from_edge_ticks
    if kind in ("parapet", "wall"):
        up_wall = rules.base_up_wall_ticks if is_under_cap else rules.cap_up_wall_ticks
        return round(rules.cant_ticks * (math.sqrt(2.0) - 1.0)) + up_wall
    return 0


def ask(case: Case, *, wide_laps: bool = True, is_eased: bool = True) -> tuple[RoofAsk, int]:
    """The roof given plainly, and the unit [ticks] in which it is given: the greatest one that leaves whole numbers.

    is_eased: plies may come closer beside a ripped top; that is only where no layout keeps the offset, so where one
    that does is known it is False.
    """
    rules = case.rules
    plies = []
    for place, ply in enumerate(case.plies):
        is_under_cap = place == len(case.plies) - 2
        low, right, high, left = (reach(kind, rules, is_under_cap=is_under_cap) for kind in case.kinds)
        sheet = ply.sheet
        sizes = (sheet.width_ticks, sheet.length_ticks, sheet.side_lap_ticks, sheet.end_lap_ticks)
        plies.append(PlyAsk(ply.ply, sheet.name, *sizes, ROLL, low, high, left, right))
    lengths = RulesAsk(
        ply_offset=rules.ply_offset_ticks,
        ply_offset_at_rip=rules.ply_offset_at_rip_ticks if is_eased else rules.ply_offset_ticks,
        stagger=rules.end_lap_stagger_ticks,
        ply_stagger=rules.end_lap_ply_offset_ticks,
        shortest=rules.shortest_piece_ticks,
        longest=rules.longest_piece_ticks,
        narrowest=rules.narrowest_rip_ticks,
        step=rules.cut_step_ticks,
        grid=GRID,
        wide_laps=wide_laps,
    )
    roof = RoofAsk(case.slabs, tuple(plies), lengths, COSTS)
    unit = math.gcd(*lengths_in(roof))
    return scaled(roof, lambda length: length // unit), unit


def lengths_in(roof: RoofAsk) -> Iterator[int]:
    """Every length of a roof."""
    found: list[int] = []
    scaled(roof, lambda length: found.append(length) or length)
    yield from found


def scaled(roof: RoofAsk, change: Callable[[int], int]) -> RoofAsk:
    """The roof with every length changed."""

    def of(value: Any, *keep: str) -> Any:
        got = {field.name: getattr(value, field.name) for field in fields(value)}
        return type(value)(**{name: one if name in keep else change(one) for name, one in got.items()})

    slabs = tuple(of(slab) for slab in roof.slabs)
    plies = tuple(of(ply, "name", "sheet", "price") for ply in roof.plies)
    return RoofAsk(slabs, plies, of(roof.rules, "wide_laps"), roof.costs)


def lay(case: Case, aim: str = "least_cost", patience: float = 1.0) -> Layout:
    """Our layout of a roof.  patience: share of the usual search, where what is asked does not hang on it."""
    return make_layout([case.area], Assembly(case.plies), case.rules, grid=GRID, aim=aim, patience=patience)


def plan_of(layout: Layout, unit: int) -> Plan:
    """Our layout as a plain plan."""
    return tuple(courses_of(ply, unit) for ply in layout.plies)


def courses_of(ply: PlyLayout, unit: int) -> tuple[CourseGot, ...]:
    """One ply's courses with their pieces."""
    found = []
    for course in ply.courses:
        row = sorted((piece for piece in ply.pieces if piece.course == course.index), key=lambda piece: piece.u0)
        pieces = tuple(
            PieceGot(piece.u0 // unit, piece.u1 // unit, piece.cut_length // unit, int(piece.roll.split()[-1]))
            for piece in row
        )
        found.append(CourseGot(course.low // unit, course.high // unit, pieces))
    return tuple(found)


def rectangle(feet: float, courses: float, **more: Any) -> Case:
    """A rectangle so many feet across and so many exposed courses of 36 3/8" up."""
    height = round(courses * (36 * INCH + 762) / INCH) * INCH
    name = more.pop("name", f"{feet_text(feet)} x {courses:g} courses")
    return Case(name, (Slab(0, round(feet * 12) * INCH, height),), **more)


def ell(across: tuple[float, float], courses: tuple[float, float], side: str, **more: Any) -> Case:
    """An L: feet across below and above, courses below and above, and the side on which both end alike."""
    wide = max(across)
    slabs = []
    for feet, count in zip(across, courses, strict=True):
        left = 0.0 if side == "left" else wide - feet
        height = round(count * (36 * INCH + 762) / INCH) * INCH
        slabs.append(Slab(round(left * 12) * INCH, round((left + feet) * 12) * INCH, height))
    name = f"L {feet_text(across[0])} below {feet_text(across[1])}, {courses[0]:g} + {courses[1]:g} courses, {side}"
    return Case(more.pop("name", name), tuple(slabs), **more)


def feet_text(feet: float) -> str:
    """Feet and inches as on a tape."""
    whole, inches = divmod(round(feet * 12), 12)
    return f"{whole}'" + (f' {inches}"' if inches else "")


@cache
def seeded_case(seed: int) -> Case:
    """The roof of a seed: a rectangle or an L of one to four courses, two or three plies, all kinds of sides.

    Every second one has sides without details, so that all rolls are for the plies.
    """
    chance = random.Random(seed)
    pick = chance.randint
    kinds = ("ridge", "metal_edge", "parapet", "tie_in")
    sides = tuple(kinds[pick(0, 3) if seed % 2 else 0] for _ in range(4))
    more = {
        "plies": THREE_PLIES if seed % 5 == 4 else TWO_PLIES,
        "kinds": sides,
        "given": ((), (), (("longest_piece", "24'"),), (("shortest_piece", "4'"), ("end_lap_stagger", "2'")))[
            pick(0, 3)
        ],
    }
    feet = (12 * pick(6, 110) + pick(0, 11)) / 12
    courses = pick(10, 39) / 10
    if seed % 3:
        return rectangle(feet, courses, **more)
    other = max(6.0, feet * pick(3, 15) / 10)
    return ell((feet, min(other, 110.0)), (courses / 2 + 0.3, courses / 2), ("left", "right")[pick(0, 1)], **more)
