"""Print how many of the generated roofs are of each class, and what they are made of.

python tools/count_roofs.py [HOW MANY]
"""

import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[1]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "src")]

from strategies import ROOFS, Roof, classes_of, seeded_roof  # noqa: E402  # the path above leads there

CLASSES = ("concave", "skewed", "three or more openings", "run just over a whole number of rolls")


def marks(roof: Roof) -> tuple[str, ...]:
    """Classes and make of a roof."""
    tape = '39 3/8" sheets' if roof.grid == 127 else "1 m sheets"
    more = ("several areas",) if len(roof.areas) > 1 else ()
    return (*classes_of(roof), f"{len(roof.assembly.plies)} plies", tape, *more)


def main() -> None:
    """Count and print."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else ROOFS
    counted = Counter(mark for seed in range(count) for mark in marks(seeded_roof(seed)))
    rest = sorted(mark for mark in counted if mark not in CLASSES)
    print(f"{'roofs':40} {count:5}")
    for mark in (*CLASSES, *rest):
        print(f"{mark:40} {counted[mark]:5} {100 * counted[mark] / count:5.1f} %")


if __name__ == "__main__":
    main()
