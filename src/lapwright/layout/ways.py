"""The joints of every part of an area, searched in several ways, the cheapest taken.

*Way*: free, or with joints that come again every two or three courses, which a crew lays as a pattern; at nearly equal
cost the pattern wins.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from lapwright.layout.chains import MOST_PARTS
from lapwright.layout.cost import AIMS, weights_of
from lapwright.layout.polish import MANY_PIECES, Polished, pieces_of, polish, polish_again, stand, tries_for
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part, Task, search
from lapwright.layout.setting import Asked, Table, asked_of
from lapwright.layout.standing import Seat, make_seats

NEARLY = 0.004  # a pattern wins when it costs no more than this share above the cheapest
SHARES = tuple((j, m) for m in range(2, 7) for j in range(1, m) if j == 1 or m < 4)
EVALUATIONS = 9000  # states tried over an area, about: more courses, fewer states side by side
WIDEST, MANY = 40, 400  # states side by side: as a rule, and where those leave no place
SEVERAL = 60  # parts up to which a least cost is looked for by way of the fewest rolls as well
ALL_AIMS = 40  # parts up to which all aims are gone after, whichever is asked for
KEPT = 64  # searches remembered: one table is searched again under each aim, and again with other lines


def best_joints(table: Table) -> Polished | Part:
    """The joints of every part, or the part that leaves no place.

    An aim other than the least cost begins from the layout of least cost as well, so that it never does worse.  On a
    small area all aims are gone after, whichever is asked for, and each takes the best of the same layouts; on one of
    few pieces without openings the least cost is looked for by way of the fewest rolls too, and what is best is
    searched about once more.
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
    best = Polished(found[costs.index(min(costs))].joints, min(costs))
    return polish_again(table.parts, best, table.stocks, judge, tries) if is_bare(table) and not is_small else best


def is_bare(table: Table) -> bool:
    """Nothing goes through an area of few runs and pieces, and the whole search is asked for."""
    is_few = len(table.parts) <= MOST_PARTS and pieces_of(table.parts, table.stocks) <= MANY_PIECES
    return is_few and table.movable is None and table.is_whole and table.setting.patience >= 1.0


def aims_beside(table: Table, aim: str) -> Sequence[str]:
    """Aims that are gone after besides the least cost, for one that is asked for."""
    if len(table.parts) <= ALL_AIMS:
        return AIMS[1:]
    if aim != "least_cost":
        return (aim,)
    return AIMS[1:2] if is_bare(table) else ()


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
