"""The benchmark tables of docs/method/layout.md, as they stand there.

    .venv/bin/python benchmarks/table.py [--seconds 60] [--quick]

Small roofs beside CP-SAT, how long CP-SAT takes to the same cost, large roofs beside our bounds, growth of the layout
and of the whole plan, memory.  --quick: fewer small roofs, CP-SAT for two seconds each, so that all is done in minutes.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

from layout import Limit, large, print_large, print_patience, print_small, small
from memory import print_plans
from run import machine
from size import example_text, growth

QUICK_SECONDS, QUICK_EVERY = 2.0, 3
PATIENCE = (3, 5, 9, 15)  # which of the small roofs CP-SAT lays without a hint
PLANS = [10_000, 30_000, 100_000]


def main() -> None:
    """Print all tables."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=60.0, help="CP-SAT's time for each roof and aim")
    parser.add_argument("--workers", type=int, default=2, help="CP-SAT's workers")
    parser.add_argument("--quick", action="store_true")
    given = parser.parse_args()
    seconds = QUICK_SECONDS if given.quick else given.seconds
    limit = Limit(deterministic=1e9, workers=given.workers, seconds=seconds)
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    cases, big = list(small()), list(large())
    print(f"Measured on {machine()}.\n\n### Roofs of up to 12 courses")
    print_small(cases[::QUICK_EVERY] if given.quick else cases, limit)
    print("\n### CP-SAT to the same cost, without our layout to begin with")
    patient = PATIENCE[:2] if given.quick else PATIENCE
    print_patience([cases[place] for place in patient], limit)
    print("\n### Roofs of 100 rolls and more")
    print_large(big[::QUICK_EVERY] if given.quick else big)
    print("\n### Growth of the layout: 60 curbs to 100,000 sq ft, two plies")
    with tempfile.TemporaryDirectory() as folder:
        growth(Path(folder), example_text(lapwright, Path(folder)))
    print("\n### The whole plan of the same roofs")
    print_plans(lapwright, PLANS)


if __name__ == "__main__":
    main()
