"""A roll clock beside a plain Python loop that steps rings of cells: how much quicker, and whether they agree.

    .venv/bin/python benchmarks/rollclock.py

CPU time of this process, the median of several; nothing is asserted.
"""

from __future__ import annotations

import statistics
import time

from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.heat.series import cylinder
from lapwright.heat.store import StoreAsk, store_clock
from lapwright.heat.unrolled import SheetAsk, sheet_clock
from run import machine

BAR_S = 0.020
ASK = RollAsk(21.11, -3.89, 4.47, 10.0, 0.004, 10.0)
PALLET = StoreAsk(-6.67, 21.11, 10.0, 0.004, 10.0, "pallet")
SHEET = SheetAsk(21.11, -3.89, 4.47, "gypsum", -3.89, 0.0, 10.0, 0.004)


def plain_core_s(film: float, radius: float, cells: int) -> float:
    """The core's time by explicit steps over rings, in lists."""
    conductivity, heat = 0.19, 1120.0 * 1460.0
    depth = radius / cells
    step = 0.2 * heat / conductivity * depth**2
    temperatures = [ASK.stored_c] * cells
    areas = [(2 * ring + 1) * depth**2 / 2 for ring in range(cells)]
    seconds = 0.0
    while temperatures[0] > ASK.until_c:
        flows = [
            conductivity * ring * (temperatures[ring] - temperatures[ring - 1]) if ring else 0.0
            for ring in range(cells)
        ]
        outer = radius / (1 / film + depth / 2 / conductivity)
        flows.append(outer * (ASK.air_c - temperatures[-1]))
        for ring in range(cells):
            temperatures[ring] += step / heat * (flows[ring + 1] - flows[ring]) / areas[ring]
        seconds += step
    return seconds


def cpu_s(work: object, runs: int) -> float:
    """Median CPU time of a call."""
    times = []
    for _ in range(runs):
        began = time.process_time()
        work()
        times.append(time.process_time() - began)
    return statistics.median(times)


def main() -> None:
    """Print times and ratios."""
    print(machine())
    clock = roll_clock(ASK)
    ours = cpu_s(lambda: roll_clock(ASK), 31)
    print(f"roll clock          {ours * 1000:7.2f} ms   bar {BAR_S * 1000:.0f} ms")
    print(f"  its series alone  {cpu_s(lambda: cylinder(14.0), 31) * 1000:7.2f} ms")
    for cells in (30, 60, 120):
        plain = cpu_s(lambda cells=cells: plain_core_s(clock.film_w_m2k, clock.radius, cells), 3)
        off = plain_core_s(clock.film_w_m2k, clock.radius, cells) / (clock.core_s or 1.0) - 1
        print(f"plain loop, {cells:3} rings{plain * 1000:9.1f} ms   {plain / ours:7.1f} x ours, core off by {off:+.2%}")
    print(f"pallet              {cpu_s(lambda: store_clock(PALLET), 11) * 1000:7.2f} ms")
    print(f"sheet               {cpu_s(lambda: sheet_clock(SHEET), 11) * 1000:7.2f} ms")


if __name__ == "__main__":
    main()
