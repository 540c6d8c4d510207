"""The joints of an area: searched in several ways, the cheapest taken.

*Way*: free, or with joints that come again every two or three courses, which a crew lays as a pattern; at nearly equal
cost the pattern wins.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

from lapwright.defaults.values import Rules
from lapwright.layout.chains import MOST_PARTS
from lapwright.layout.cost import AIMS, Costs, weights_of
from lapwright.layout.courses import Conflict
from lapwright.layout.packing import pack
from lapwright.layout.parts import Bare, Joints, Place, make_parts
from lapwright.layout.pieces import PlyGround
from lapwright.layout.polish import MANY_PIECES, Polished, pieces_of, polish, stand, tries_for
from lapwright.layout.pool import MOST_OFFCUTS, Stock, units_of
from lapwright.layout.search import Part, Task, search
from lapwright.layout.splits import split_at
from lapwright.layout.standing import Judge, Seat, make_judge, make_seats

NEARLY = 0.004  # a pattern wins when it costs no more than this share above the cheapest
SHARES = tuple((j, m) for m in range(2, 7) for j in range(1, m) if j == 1 or m < 4)
EVALUATIONS = 9000  # states tried over an area, about: more courses, fewer states side by side
WIDEST, MANY = 40, 400  # states side by side: as a rule, and where those leave no place
FEW = 4  # states side by side where it is only asked whether there is a place
SEVERAL = 60  # parts up to which a least cost is looked for by way of the fewest rolls as well
ALL_AIMS = 40  # parts up to which all aims are gone after, whichever is asked for
WAYS = (0, 2, 3)  # courses after which joints come again; 0: free
KEPT = 64  # searches remembered: one table is searched again under each aim, and again with other lines


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


@dataclass(frozen=True, slots=True)
class Setting:
    """What a search of an area is made with.

    sheets: length of the roll by sheet, in order.  bare, full: lengths that details take of each sheet with how many,
    without those at openings and with them.  patience: share of the usual tries of the last search, and under 1 of the
    states that are kept side by side before it.
    """

    rules: Rules
    costs: Costs
    aim: str
    sheets: Mapping[str, int]
    bare: tuple[Mapping[int, int], ...]
    full: tuple[Mapping[int, int], ...]
    patience: float = 1.0


@dataclass(frozen=True, slots=True)
class Before:
    """What earlier areas leave: offcuts by sheet, and lengths cut from each sheet with how many."""

    pools: tuple[tuple[int, ...], ...]
    cut: tuple[Mapping[int, int], ...]


def nothing_before(sheets: int) -> Before:
    """What the first area begins with."""
    return Before(tuple(() for _ in range(sheets)), tuple({} for _ in range(sheets)))


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


def in_step(stocks: Sequence[Stock]) -> list[Stock]:
    """The stocks with units whose joints follow those of another ply's longest pieces at one distance.

    Where each course is to have the fewest pieces its joints have little play, and a distance that grows from joint
    to joint uses it up.  Only units nearly as long as the longest piece are of use for that.
    Source: arithmetic
    Checked: tests/layout/test_choose.py
    """
    found = []
    for stock in stocks:
        pitches = dict.fromkeys(other.longest - other.end_lap for other in stocks)
        units = [pitch + stock.end_lap for pitch in pitches]
        fit = [unit for unit in units if stock.longest * 49 // 50 <= unit <= stock.longest and unit % stock.step == 0]
        found.append(replace(stock, units=tuple(dict.fromkeys((*stock.units, *fit)))))
    return found


@dataclass(frozen=True, slots=True)
class Table:
    """The parts of an area on one ground, ready to be split: parts, stocks, setting, what was before.

    repeats: courses after which joints come again, to be tried; movable: parts that the last search may change, None
    for all; details: what details take of each sheet.
    """

    parts: Sequence[Part]
    stocks: Sequence[Stock]
    setting: Setting
    before: Before
    repeats: Sequence[int]
    movable: Sequence[int] | None
    details: tuple[Mapping[int, int], ...]

    @property
    def is_whole(self) -> bool:
        """All that details take of each sheet is known."""
        return self.details == self.setting.full

    def judge(self, aim: str) -> Judge:
        """What an aim judges by, earlier areas' lengths and details packed with the area's own."""
        fixed = [added(one, other) for one, other in zip(self.details, self.before.cut, strict=True)]
        return make_judge(aim, self.setting.costs, list(self.setting.sheets), fixed)


@dataclass(frozen=True, slots=True)
class Asked:
    """A table, known by all that its searches hang on; the aim that was asked for is not among it."""

    table: Table = field(compare=False)
    known_by: tuple[object, ...]


def asked_of(table: Table) -> Asked:
    """A table and what its searches hang on."""
    setting, before = table.setting, table.before
    worths = tuple(setting.costs.worth(name) for name in ("end_lap", "t_joint", "cut", "new_length"))
    prices = tuple((name, roll, setting.costs.price(name)) for name, roll in setting.sheets.items())
    counts = tuple(tuple(each.items()) for each in (*before.cut, *table.details))
    movable = None if table.movable is None else tuple(table.movable)
    parts, stocks = tuple(table.parts), tuple(table.stocks)
    whole = (movable, table.is_whole)
    return Asked(
        table, (parts, stocks, worths, prices, setting.patience, before.pools, counts, tuple(table.repeats), whole)
    )


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


def best_joints(table: Table) -> Polished | Part:
    """The joints of every part, or the part that leaves no place.

    An aim other than the least cost begins from the layout of least cost as well, so that it never does worse.  On a
    small area all aims are gone after, whichever is asked for, and each takes the best of the same layouts; on one of
    few pieces the least cost is looked for by way of the fewest rolls too.
    """
    aim, patience, asked = table.setting.aim, table.setting.patience, asked_of(table)
    tries = tries_for(table.parts, table.stocks, patience)
    if table.movable is not None:
        tries = min(tries, tries * len(table.movable) // max(1, len(table.parts)) + 1)
    way = cheapest_way(asked, "least_cost")
    if isinstance(way, Part):
        return way
    found = [polished(asked, way.joints, "least_cost", tries)]
    is_small = len(table.parts) <= ALL_AIMS
    for one in aims_beside(table, aim):
        way = cheapest_way(asked, one)
        starts = (found[0].joints, *(() if isinstance(way, Part) else (way.joints,)))
        found += [polished(asked, joints, one, tries // 3 if is_small else tries // 2) for joints in starts]
    judge = table.judge(aim)
    seats = make_seats(table.parts, found[0].joints)
    costs = [stand(table.parts, one.joints, table.stocks, judge, seats).cost() for one in found]
    return Polished(found[costs.index(min(costs))].joints, min(costs))


def aims_beside(table: Table, aim: str) -> Sequence[str]:
    """Aims that are gone after besides the least cost, for one that is asked for."""
    if len(table.parts) <= ALL_AIMS:
        return AIMS[1:]
    if aim != "least_cost":
        return (aim,)
    is_bare = table.movable is None and len(table.parts) <= MOST_PARTS and table.setting.patience >= 1.0
    return AIMS[1:2] if is_bare and pieces_of(table.parts, table.stocks) <= MANY_PIECES else ()


@lru_cache(maxsize=KEPT)
def polished(asked: Asked, joints: tuple[tuple[int, ...], ...], aim: str, tries: int) -> Polished:
    """What the last search makes of joints under an aim."""
    table = asked.table
    return polish(table.parts, joints, table.stocks, table.judge(aim), tries, table.movable, is_whole=table.is_whole)


@lru_cache(maxsize=KEPT)
def cheapest_way(asked: Asked, aim: str) -> Polished | Part:
    """The cheapest of the ways tried, a pattern where it costs nearly the same; or the part that leaves no place.

    Where the cheapest states leave no place somewhere, many more are kept side by side, with joints all over the run.
    """
    table = asked.table
    setting, stocks = table.setting, in_step(table.stocks) if aim == "fewest_laps" else table.stocks
    judge = table.judge(aim)
    free = sum(1 for part in table.parts if part.wanted is None)
    width = max(2, round(min(WIDEST, EVALUATIONS // (16 * max(1, free))) * min(1.0, setting.patience)))
    hints = {stock.ply: tuple(stock.roll * j // m for j, m in SHARES) for stock in stocks}
    found: list[tuple[int, Polished]] = []
    seats: list[Seat] = []
    stuck: Part | None = None
    several = aim == "least_cost" and len(table.parts) <= SEVERAL
    for one in AIMS[:2] if several else (aim,):
        weights = weights_of(one, setting.costs, setting.sheets)
        prices = [weights.roll[name] for name in setting.sheets]
        for repeat in table.repeats:
            task = Task(table.parts, stocks, weights, prices, width, repeat, table.before.pools, hints)
            result = search(task)
            if isinstance(result, Part) and not repeat:
                result = search(replace(task, width=MANY, hints=all_over(stocks)))
            if isinstance(result, Part):
                stuck = result
                continue
            joints = tuple(split.joints for split in result[0])
            seats = seats or make_seats(table.parts, joints)
            found.append((repeat, Polished(joints, stand(table.parts, joints, stocks, judge, seats).cost())))
    if stuck is not None and not found:
        return stuck
    least = min(way.cost for _, way in found)
    good = [(repeat == 0, way) for repeat, way in found if way.cost <= least + abs(least) * NEARLY]
    return min(good, key=lambda one: (one[0], one[1].cost))[1]


def all_over(stocks: Sequence[Stock]) -> dict[int, tuple[int, ...]]:
    """First lengths at even steps from the shortest to the longest piece, by ply."""
    return {
        stock.ply: tuple(range(stock.shortest, stock.longest, max(stock.step, (stock.longest - stock.shortest) // 24)))
        for stock in stocks
    }


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


def added(one: Mapping[int, int], other: Mapping[int, int]) -> dict[int, int]:
    """Counts together.  Source: arithmetic"""
    return {key: one.get(key, 0) + other.get(key, 0) for key in (*one, *other)}


def gather(joints: Sequence[Sequence[int]], places: Sequence[Place], grounds: Sequence[PlyGround]) -> Joints:
    """Joints by run: those of its parts with the held ones between them."""
    found: dict[tuple[int, int, int], tuple[int, ...]] = {}
    for own, place in zip(joints, places, strict=True):
        key = (place.ply, place.course, place.run)
        held = grounds[place.ply].held[(place.course, place.run)]
        before = (*found[key], held[place.stretch - 1]) if place.stretch else ()
        found[key] = (*before, *own)
    return found
