"""The joints of an area: searched in several ways, the cheapest taken.

*Way*: free, or with joints that come again every two or three courses, which a crew lays as a pattern; at nearly equal
cost the pattern wins.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.defaults.values import Rules
from lapwright.layout.cost import AIMS, Costs, Weights, weights_of
from lapwright.layout.courses import Conflict
from lapwright.layout.parts import Bare, Joints, Place, make_parts
from lapwright.layout.pieces import PlyGround
from lapwright.layout.pool import Stock, units_of
from lapwright.layout.search import Part, State, Task, search
from lapwright.layout.splits import Split

NEARLY = 0.004  # a pattern wins when it costs no more than this share above the cheapest
SHARES = tuple((j, m) for m in range(2, 7) for j in range(1, m) if j == 1 or m < 4)
EVALUATIONS = 9000  # states tried over an area, about: more courses, fewer states side by side
WIDEST, MANY = 40, 400  # states side by side: as a rule, and where those leave no place
WAYS = (0, 2, 3)  # courses after which joints come again; 0: free


@dataclass(frozen=True, slots=True)
class Chosen:
    """Joints of an area for one aim with the grounds they are for, the offcuts left, and what they cost."""

    joints: Joints
    grounds: Sequence[PlyGround]
    pools: tuple[tuple[int, ...], ...]
    cost: float


@dataclass(frozen=True, slots=True)
class Setting:
    """What a search of an area is made with.

    sheets: length of the roll by sheet, in order.  need: length of details still to be cut from each sheet, which may
    come from offcuts.
    """

    rules: Rules
    costs: Costs
    aim: str
    sheets: Mapping[str, int]
    need: Mapping[str, int]


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


def choose_joints(
    bare: Sequence[PlyGround],
    grounds: Sequence[PlyGround],
    setting: Setting,
    pools: tuple[tuple[int, ...], ...],
) -> Chosen:
    """The joints of every run of an area: of the bare ground first, then with what goes through the roof.

    pools: offcuts to begin with, by sheet.
    Raises: Conflict where the staggers leave no place.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_choose.py, tests/reference
    """
    rules = setting.rules
    stocks = make_stocks(grounds, rules, setting.sheets)
    parts, places = make_parts(bare, rules, None)
    chosen = cheapest_way(parts, stocks, setting, pools, WAYS)
    if grounds is not bare:
        if not isinstance(chosen, Part):
            before = gather(chosen.splits, places, bare)
            parts, places = make_parts(grounds, rules, Bare(bare, before))
            chosen = cheapest_way(parts, stocks, setting, pools, WAYS[:1])
        if isinstance(chosen, Part):  # joints kept from the bare ground can leave no place at an opening
            parts, places = make_parts(grounds, rules, None)
            chosen = cheapest_way(parts, stocks, setting, pools, WAYS)
    if isinstance(chosen, Part):
        name = grounds[chosen.row[0]].ply
        why = "end laps of neighbouring courses and plies leave no place"
        raise Conflict("end_lap_stagger", (name, name), 0, why)
    return Chosen(gather(chosen.splits, places, grounds), grounds, chosen.state.pools, chosen.cost)


@dataclass(frozen=True, slots=True)
class Way:
    """One way of splitting the parts: the courses after which joints come again (0: free), what it costs."""

    repeat: int
    splits: list[Split]
    state: State
    cost: float


def cheapest_way(
    parts: Sequence[Part],
    stocks: Sequence[Stock],
    setting: Setting,
    pools: tuple[tuple[int, ...], ...],
    repeats: Sequence[int],
) -> Way | Part:
    """The cheapest of the ways tried, a pattern where it costs nearly the same; or the part that leaves no place.

    Where the cheapest states leave no place somewhere, many more are kept side by side, with joints all over the run.
    """
    aimed = weights_of(setting.aim, setting.costs, setting.sheets)
    free = sum(1 for part in parts if part.wanted is None)
    width = max(2, min(WIDEST, EVALUATIONS // (16 * max(1, free))))
    hints = {stock.ply: tuple(stock.roll * j // m for j, m in SHARES) for stock in stocks}
    found: list[Way] = []
    stuck: Part | None = None
    for aim in AIMS[:2] if setting.aim == "least_cost" else (setting.aim,):
        weights = weights_of(aim, setting.costs, setting.sheets)
        prices = [weights.roll[name] for name in setting.sheets]
        for repeat in repeats:
            task = Task(parts, stocks, weights, prices, width, repeat, pools, hints)
            result = search(task)
            if isinstance(result, Part) and not repeat:
                result = search(replace(task, width=MANY, hints=all_over(stocks)))
            if isinstance(result, Part):
                stuck = result
                continue
            splits, state = result
            found.append(Way(repeat, splits, state, judged(splits, parts, stocks, state, aimed, setting)))
    if stuck is not None and not found:
        return stuck
    least = min(way.cost for way in found)
    good = [way for way in found if way.cost <= least + abs(least) * NEARLY]  # offcuts can be worth more than rolls
    return min(good, key=lambda way: (way.repeat == 0, way.cost))


def all_over(stocks: Sequence[Stock]) -> dict[int, tuple[int, ...]]:
    """First lengths at even steps from the shortest to the longest piece, by ply."""
    return {
        stock.ply: tuple(range(stock.shortest, stock.longest, max(stock.step, (stock.longest - stock.shortest) // 24)))
        for stock in stocks
    }


def judged(
    splits: Sequence[Split],
    parts: Sequence[Part],
    stocks: Sequence[Stock],
    state: State,
    weights: Weights,
    setting: Setting,
) -> float:
    """What a way costs: rolls opened, less what details can still use of the offcuts; laps, cuts, lengths."""
    names = list(setting.sheets)
    laps = cuts = 0
    for split, part in zip(splits, parts, strict=True):
        stock = stocks[part.row[0]]
        laps += len(split.joints)
        cuts += split.cuts(stock.roll)
    cost = laps * weights.end_lap + cuts * weights.cut + len(state.lengths) * weights.length
    for s, name in enumerate(names):
        useful = min(sum(state.pools[s]), setting.need[name])
        cost += (state.opened[s] - useful / setting.sheets[name]) * weights.roll[name]
    return cost


def gather(splits: Sequence[Split], places: Sequence[Place], grounds: Sequence[PlyGround]) -> Joints:
    """Joints by run: those of its parts with the held ones between them."""
    found: dict[tuple[int, int, int], tuple[int, ...]] = {}
    for split, place in zip(splits, places, strict=True):
        key = (place.ply, place.course, place.run)
        held = grounds[place.ply].held[(place.course, place.run)]
        before = (*found[key], held[place.stretch - 1]) if place.stretch else ()
        found[key] = (*before, *split.joints)
    return found
