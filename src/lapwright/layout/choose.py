"""The joints of an area: searched in several ways, the cheapest taken.

*Way*: free, or with joints that come again every two or three courses, which a crew lays as a pattern; at nearly equal
cost the pattern wins.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.defaults.values import Rules
from lapwright.layout.cost import AIMS, Costs, Weights, weights_of
from lapwright.layout.courses import Conflict
from lapwright.layout.parts import Bare, Joints, Place, make_parts
from lapwright.layout.pieces import PlyGround
from lapwright.layout.pool import Stock, units_of
from lapwright.layout.search import Part, State, Task, search
from lapwright.layout.splits import Split

NEARLY = 1.004  # a pattern wins when it costs no more than this times the cheapest
SHARES = tuple((j, m) for m in range(2, 7) for j in range(1, m) if j == 1 or m < 4)
EVALUATIONS = 9000  # states tried over an area, about: more courses, fewer states side by side
WIDEST = 40


@dataclass(frozen=True, slots=True)
class Chosen:
    """Joints of an area for one aim, the offcuts left, and what they cost by the plain cost."""

    joints: Joints
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
    chosen = cheapest_way(parts, places, bare, stocks, setting, pools)
    if grounds is bare:
        return chosen
    parts, places = make_parts(grounds, rules, Bare(bare, chosen.joints))
    return cheapest_way(parts, places, grounds, stocks, setting, pools, repeats=())


def cheapest_way(
    parts: Sequence[Part],
    places: Sequence[Place],
    grounds: Sequence[PlyGround],
    stocks: Sequence[Stock],
    setting: Setting,
    pools: tuple[tuple[int, ...], ...],
    *,
    repeats: Sequence[int] = (2, 3),
) -> Chosen:
    """The cheapest of the ways tried; a pattern where it costs nearly the same."""
    names = list(setting.sheets)
    plain = weights_of("least_cost", setting.costs, setting.sheets)
    aimed = weights_of(setting.aim, setting.costs, setting.sheets)
    hints = {stock.ply: tuple(stock.roll * j // m for j, m in SHARES) for stock in stocks}
    free = sum(1 for part in parts if part.wanted is None)
    width = max(2, min(WIDEST, EVALUATIONS // (16 * max(1, free))))
    found: list[tuple[float, int, list[Split], State]] = []
    stuck: Part | None = None
    for repeat in (0, *repeats):
        aims = AIMS[:2] if setting.aim == "least_cost" else (setting.aim,)
        for aim in aims:
            weights = weights_of(aim, setting.costs, setting.sheets)
            prices = [weights.roll[name] for name in names]
            task = Task(parts, stocks, weights, prices, width, repeat, pools, hints)
            result = search(task)
            if isinstance(result, Part):
                stuck = result
                continue
            splits, state = result
            found.append((judged(splits, parts, stocks, state, aimed, setting, pools), repeat, splits, state))
    if not found:
        raise stuck_conflict(stuck, grounds)
    least = min(cost for cost, *_ in found)
    good = [one for one in found if one[0] <= least * NEARLY]
    _, _, splits, state = min(good, key=lambda one: (one[1] == 0, one[0]))
    joints = gather(splits, places, grounds)
    return Chosen(joints, state.pools, judged(splits, parts, stocks, state, plain, setting, pools))


def stuck_conflict(part: Part | None, grounds: Sequence[PlyGround]) -> Conflict:
    """The conflict of a part where no joint can be placed."""
    name = grounds[part.row[0] if part else 0].ply
    return Conflict("end_lap_stagger", (name, name), 0, "end laps of neighbouring courses and plies leave no place")


def judged(
    splits: Sequence[Split],
    parts: Sequence[Part],
    stocks: Sequence[Stock],
    state: State,
    weights: Weights,
    setting: Setting,
    before: tuple[tuple[int, ...], ...],
) -> float:
    """What a way costs: rolls opened, less what details can still use of the offcuts; laps, cuts, lengths."""
    names = list(setting.sheets)
    used = [0.0] * len(names)
    laps = cuts = 0
    for split, part in zip(splits, parts, strict=True):
        stock = stocks[part.row[0]]
        used[stock.sheet] += sum(split.ends) + split.middles * split.unit
        laps += len(split.joints)
        cuts += sum(1 for length in split.ends if length < stock.roll) + split.middles * (split.unit < stock.roll)
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
