"""Lays thousands of random roofs that the tests don't, and tells each rule broken and each roof refused.

    python tools/night_roofs.py [--roofs 3000] [--after 0] [--workers 2] [--patience 0.02] [--whole 25]

Roofs are of the four kinds of tests/strategies.py and that of tests/askew.py by turns, by seeds that follow those of
the tests; --after leaves out so many of each kind, so that another night has others.  Roofs are laid with a share of
the usual search, since the rules hold however long it looks; every so many by the whole of it.  A seed that is told of
belongs into the tests as a case of its own.  The slowest are told at the end.  Exit status 1 where a rule was broken; a
refused roof is counted and told, since its rules may leave no way.
"""

from __future__ import annotations

import argparse
import sys
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from multiprocessing import Pool
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "tests/properties"))

from test_askew_roofs import askew
from test_layout import PATIENCE, strategies, told

from lapwright.layout.courses import Conflict

KINDS = {
    "plain": (strategies.seeded_roof, strategies.ROOFS),
    "odd": (strategies.odd_roof, 1_000),
    "unequal": (strategies.unequal_roof, 1_000),
    "askew": (askew.askew_roof, 1_000),
    "bare": (strategies.bare_roof, 1_000),
}
Asked = tuple[str, int, float]
Judged = tuple[str, int, str, list[str], float]
SLOWEST = 5  # roofs told at the end


def asked(roofs: int, after: int, patience: float, whole: int) -> Iterator[Asked]:
    """Kind and seed of each roof, and the share of the search that it is laid with: all of it every `whole` roofs."""
    for k in range(roofs):
        name = list(KINDS)[k % len(KINDS)]
        yield (name, KINDS[name][1] + after + k // len(KINDS), patience if (k + 1) % whole else 1.0)


def judged(one: Asked) -> Judged:
    """What comes of a roof: laid, refused, broken or an error, what is said of it, and how long it took [s]."""
    name, seed, patience = one
    began = time.process_time()
    what, said = outcome(name, seed, patience)
    return (name, seed, what, said, time.process_time() - began)


def outcome(name: str, seed: int, patience: float) -> tuple[str, list[str]]:
    """What comes of a roof, and what is said of it."""
    try:
        said = told(KINDS[name][0](seed), patience)
    except Conflict as refused:
        return ("refused", [str(refused)])
    except Exception:  # whatever it is, the night goes on to the next roof
        return ("error", traceback.format_exc().splitlines()[-3:])
    return ("broken" if said else "laid", said)


def main() -> int:
    """Judge them and tell."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--roofs", type=int, default=3_000)
    parser.add_argument("--after", type=int, default=0)
    parser.add_argument("--workers", type=int, default=2)
    parser.add_argument("--patience", type=float, default=PATIENCE, help="share of the search that roofs are laid with")
    parser.add_argument("--whole", type=int, default=25, help="every so many roofs all of the search")
    given = parser.parse_args()
    counted: Counter[tuple[str, str]] = Counter()
    slowest: list[tuple[float, str, int]] = []
    roofs = asked(given.roofs, given.after, given.patience, given.whole)
    with Pool(given.workers) as pool:
        for name, seed, what, said, took in pool.imap(judged, roofs):
            counted[name, what] += 1
            slowest = sorted([*slowest, (took, name, seed)], reverse=True)[:SLOWEST]
            if what != "laid":
                print(f"{name} {seed} {what}: " + " | ".join(said[:4]), flush=True)
            if counted.total() % 100 == 0:
                print(f"{counted.total()} roofs", flush=True)
    for (name, what), count in sorted(counted.items()):
        print(f"{name:8} {what:8} {count}")
    print("slowest: " + ", ".join(f"{name} {seed} {took:.1f} s" for took, name, seed in slowest))
    return 1 if any(what in ("broken", "error") for _, what in counted) else 0


if __name__ == "__main__":
    sys.exit(main())
