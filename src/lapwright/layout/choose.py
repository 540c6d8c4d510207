"""The joints of an area: of its bare ground, then with what goes through the roof."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.defaults.values import Rules
from lapwright.layout.cost import weights_of
from lapwright.layout.courses import Conflict
from lapwright.layout.packing import pack
from lapwright.layout.parts import Bare, Joints, Place, make_parts
from lapwright.layout.pieces import PlyGround
from lapwright.layout.polish import Polished
from lapwright.layout.pool import MOST_OFFCUTS, Stock, units_of
from lapwright.layout.search import Part, Task, search
from lapwright.layout.setting import Before, Setting, Table
from lapwright.layout.splits import split_at
from lapwright.layout.ways import MANY, all_over, best_joints

FEW = 4  # states side by side where it is only asked whether there is a place
WAYS = (0, 2, 3)  # courses after which joints come again; 0: free


@dataclass(frozen=True, slots=True)
class Chosen:
    """Joints of an area for one aim with the grounds they are for, and what they cost.

    pools: offcuts left; cut: lengths cut from each sheet with how many, those of earlier areas with them; both of the
    bare ground, so that an opening that moves changes nothing in later areas.
    """

    joints: Joints
    grounds: Sequence[PlyGround]
    pools: tuple[tuple[int, ...], ...]
    cut: tuple[Mapping[int, int], ...]
    cost: float


def make_stocks(grounds: Sequence[PlyGround], rules: Rules, sheets: Mapping[str, int]) -> list[Stock]:
    """How each ply's sheet is cut.  Source: the rules"""
    names = list(sheets)
    step = rules.cut_step_ticks
    found = []
    for ply, ground in enumerate(grounds):
        roll = ground.sheet.length_ticks
        longest = min(rules.longest_piece_ticks, roll) // step * step
        units = units_of(roll, longest, step)
        sheet = names.index(ground.sheet.name)
        shortest = -(-rules.shortest_piece_ticks // step) * step
        found.append(Stock(ply, sheet, roll, longest, shortest, ground.sheet.end_lap_ticks, step, units))
    return found


def choose_joints(bare: Sequence[PlyGround], grounds: Sequence[PlyGround], setting: Setting, before: Before) -> Chosen:
    """The joints of every run of an area: of the bare ground first, then with what goes through the roof.

    Raises: Conflict where the staggers leave no place.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_choose.py, tests/reference
    """
    rules = setting.rules
    stocks = make_stocks(grounds, rules, setting.sheets)
    is_bare = grounds is bare
    parts, places = make_parts(bare, rules, None)
    table = Table(parts, stocks, setting, before, WAYS, None, setting.full if is_bare else setting.bare)
    found = best_joints(table)
    after = before if isinstance(found, Part) else left_over(table, found)
    if not is_bare:
        if not isinstance(found, Part):
            kept = gather(found.joints, places, bare)
            parts, places = make_parts(grounds, rules, Bare(bare, kept))
            movable = [p for p, part in enumerate(parts) if part.wanted is None]
            found = best_joints(Table(parts, stocks, setting, before, WAYS[:1], movable, setting.full))
        if isinstance(found, Part):  # joints kept from the bare ground can leave no place at an opening
            parts, places = make_parts(grounds, rules, None)
            found = best_joints(Table(parts, stocks, setting, before, WAYS, None, setting.full))
    if isinstance(found, Part):
        raise no_place(grounds[found.row[0]])
    return Chosen(gather(found.joints, places, grounds), grounds, after.pools, after.cut, found.cost)


def no_place(ground: PlyGround) -> Conflict:
    """The finding that end laps have no place, in words."""
    why = "end laps of neighbouring courses and plies leave no place"
    return Conflict("end_lap_stagger", (ground.ply, ground.ply), 0, why)


def has_place(grounds: Sequence[PlyGround], setting: Setting, before: Before) -> bool:
    """The search finds some joints for a ground; far less work than to choose them."""
    stocks = make_stocks(grounds, setting.rules, setting.sheets)
    parts, _ = make_parts(grounds, setting.rules, None)
    weights = weights_of("least_cost", setting.costs, setting.sheets)
    prices = [weights.roll[name] for name in setting.sheets]
    few = Task(parts, stocks, weights, prices, FEW, 0, before.pools, {})
    many = replace(few, width=MANY, hints=all_over(stocks))
    return any(not isinstance(search(task), Part) for task in (few, many))


def left_over(table: Table, found: Polished) -> Before:
    """What an area leaves to the next: offcuts, longest last, and lengths cut."""
    cut, pools = [], []
    for sheet, roll in enumerate(table.setting.sheets.values()):
        counts: dict[int, int] = dict(table.before.cut[sheet])
        for part, joints in zip(table.parts, found.joints, strict=True):
            stock = table.stocks[part.row[0]]
            if stock.sheet == sheet:
                for length in split_at(part.left, part.right, joints, stock).ends:
                    counts[length] = counts.get(length, 0) + 1
        cut.append(counts)
        rests = [roll - sum(inside) for inside, times in pack(counts, roll) for _ in range(times)]
        shortest = min((stock.shortest for stock in table.stocks if stock.sheet == sheet), default=roll)
        pools.append(tuple(sorted(rest for rest in rests if rest >= shortest)[-MOST_OFFCUTS:]))
    return Before(tuple(pools), tuple(cut))


def gather(joints: Sequence[Sequence[int]], places: Sequence[Place], grounds: Sequence[PlyGround]) -> Joints:
    """Joints by run: those of its parts with the held ones between them."""
    found: dict[tuple[int, int, int], tuple[int, ...]] = {}
    for own, place in zip(joints, places, strict=True):
        key = (place.ply, place.course, place.run)
        held = grounds[place.ply].held[(place.course, place.run)]
        before = (*found[key], held[place.stretch - 1]) if place.stretch else ()
        found[key] = (*before, *own)
    return found
