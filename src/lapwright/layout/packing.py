"""How many rolls lengths take, and which lengths each roll gives: best fit first, then rolls filled as full as can be.

*Fill*: lengths cut from one roll, with how many rolls are filled that way.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections import Counter
from collections.abc import Mapping, Sequence

Counts = Mapping[int, int]  # length [ticks] -> how many
Fill = tuple[tuple[int, ...], int]  # lengths of one roll, longest first; rolls filled that way
NODES, ALL_NODES, FEWEST_NODES = 400, 3_000, 20  # choices looked at: for one roll, for all, and at least for one
MOST_SIZES = 12  # lengths that the bound is tried with


def pack(counts: Counts, roll: int) -> list[Fill]:
    """Lengths in as few rolls as can be found; no length may be longer than the roll.

    Source: best fit decreasing (D. S. Johnson, 1973), minimum bin slack (Gupta and Ho, 1999) [both from memory]
    Checked: tests/layout/test_packing.py against exhaustive search
    """
    lengths = sorted((length for length, count in counts.items() if count), reverse=True)
    first = best_fit([(length, counts[length]) for length in lengths], roll)
    used = sum(count for _, count in first)
    if used <= fewest(counts, roll, used):
        return first
    second = slackless(lengths, counts, roll, max(FEWEST_NODES, min(NODES, ALL_NODES // used)))
    return second if sum(count for _, count in second) < used else first


def fewest(counts: Counts, roll: int, enough: int | None = None) -> int:
    """Rolls that lengths need at least: those over a half each their own, the others what is left over.

    enough: a number that is not looked beyond.
    Source: S. Martello and P. Toth, Knapsack Problems, 1990, bound L2 [from memory]
    Checked: tests/layout/test_packing.py
    """
    items = list(counts.items())
    best = -(-sum([length * count for length, count in items]) // roll)
    small = sorted([length for length in counts if 2 * length <= roll])
    for least in (0, *small[:: max(1, -(-len(small) // MOST_SIZES))]):
        if enough is not None and best >= enough:
            break
        own = rest = free = 0
        for length, count in items:
            if 2 * length > roll:  # a roll each; what it leaves is of use unless it is under the least
                own += count
                if length <= roll - least:
                    free += (roll - length) * count
            elif length >= least:
                rest += length * count
        best = max(best, own + max(0, -(-(rest - free) // roll)))
    return best


def best_fit(items: Sequence[tuple[int, int]], roll: int) -> list[Fill]:
    """Each length in turn from the opened roll that it fits best; equal rolls go together.

    A roll that a length fits best fits it best again, while it lasts: so a length fills roll by roll.
    """
    free: list[tuple[int, tuple[int, ...], int]] = []  # rest, lengths, rolls like that
    for length, count in items:
        while count:
            at = bisect_left(free, (length,))
            rest, inside, times = free.pop(at) if at < len(free) else (roll, (), count)
            each = min(rest // length, count)
            filled = min(times, count // each)
            insort(free, (rest - each * length, (*inside, *(length,) * each), filled))
            if inside and filled < times:
                insort(free, (rest, inside, times - filled))
            count -= each * filled
    return [(inside, times) for _, inside, times in free]


def slackless(lengths: Sequence[int], counts: Counts, roll: int, nodes: int) -> list[Fill]:
    """Rolls filled one after another: the longest length left, and with it what leaves least.

    nodes: choices looked at for one roll.
    """
    left = {length: counts[length] for length in lengths}
    sizes = sorted(left)
    found: list[Fill] = []
    while sizes:
        longest = sizes[-1]
        left[longest] -= 1
        most = len(sizes) if left[longest] else len(sizes) - 1
        inside = (longest, *fullest(sizes, most, left, (roll - longest, nodes)))
        left[longest] += 1
        taken = Counter(inside)
        times = min(left[length] // each for length, each in taken.items())
        for length, each in taken.items():
            left[length] -= times * each
            if not left[length]:
                del sizes[bisect_left(sizes, length)]
        found.append((inside, times))
    return found


def fullest(sizes: Sequence[int], most: int, left: Counts, asked: tuple[int, int]) -> tuple[int, ...]:
    """The lengths that fill a room best, longest first; of equals the one found first.

    sizes: lengths, rising; most: how many of them there are to choose from; left: how many of each.
    asked: the room, and choices looked at.
    """
    room, nodes = asked
    best: tuple[int, tuple[int, ...]] = (room, ())
    stack: list[tuple[int, int, tuple[int, ...]]] = [(most, room, ())]
    for _ in range(nodes):
        if not stack:
            break
        below, rest, inside = stack.pop()
        if rest < best[0]:
            best = (rest, inside)
            if not rest:
                break
        at = bisect_right(sizes, rest, 0, below) - 1
        if at < 0:
            continue
        length = sizes[at]
        # the last one, with the most, is looked at first
        stack += [
            (at, rest - n * length, (*inside, *(length,) * n)) for n in range(min(left[length], rest // length) + 1)
        ]
    return best[1]
