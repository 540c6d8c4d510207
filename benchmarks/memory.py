"""What a whole `plan` takes: processor time, memory of all its processes together, and of the largest of them.

    python benchmarks/memory.py [--sizes 10000,30000,100000] [--every 0.02] [--stages]

The roofs are those of benchmarks/size.py.  Every so many seconds the processes below `plan` are looked up in /proc
and their memory is added: RSS counts a page that two processes share twice, PSS shares it out between them.  What is
told is the most that was found at one time; the bar is for all processes together, by RSS.  --stages tells it of each
step of the plan as well.  Linux only; nothing is asserted.
"""

from __future__ import annotations

import argparse
import math
import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from run import machine
from size import SIZES, example_text, job_text

BARS = {60: " (bar 500)"}
FIELDS = ("Rss:", "Pss:")


@dataclass(slots=True)
class Peak:
    """The most found so far [kB]: all processes together by RSS and by PSS, one process, and how many at once."""

    rss: int = 0
    pss: int = 0
    single: int = 0
    processes: int = 0


def below(root: int) -> Iterator[int]:
    """A process and all that it started, by id."""
    yield root
    for task in Path(f"/proc/{root}/task").glob("*/children"):
        for child in task.read_text().split():
            yield from below(int(child))


def memory_of(process: int) -> tuple[int, int]:
    """RSS and PSS of a process [kB]; nothing of one that has ended."""
    try:
        lines = Path(f"/proc/{process}/smaps_rollup").read_text().splitlines()
    except OSError:
        return (0, 0)
    found = {line.split()[0]: int(line.split()[1]) for line in lines if line.startswith(FIELDS)}
    return (found.get("Rss:", 0), found.get("Pss:", 0))


def look(root: int, peak: Peak) -> int:
    """Add a look at all processes to the peak; what they take together now by RSS [kB]."""
    try:
        found = [memory_of(process) for process in below(root)]
    except OSError:
        return 0
    together = sum(rss for rss, _ in found)
    peak.rss = max(peak.rss, together)
    peak.pss = max(peak.pss, sum(pss for _, pss in found))
    peak.single = max(peak.single, *(rss for rss, _ in found))
    peak.processes = max(peak.processes, len(found))
    return together


def watch(arguments: list[str], every: float) -> tuple[Peak, list[tuple[str, float, int]], float]:
    """The peak of a command; the words it said, each with the time it stood last [s] and the most meanwhile [kB]."""
    peak, stages = Peak(), []
    before = os.times()
    with subprocess.Popen(arguments, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) as process:
        assert process.stderr is not None
        os.set_blocking(process.stderr.fileno(), False)
        began, most, told = time.perf_counter(), 0, b""
        while process.poll() is None:
            most = max(most, look(process.pid, peak))
            told += process.stderr.read() or b""
            *lines, told = told.split(b"\n")
            for line in lines:
                now = time.perf_counter()
                stages.append((line.decode().strip(), now - began, most))
                began, most = now, 0
            time.sleep(every)
        stages.append(("to the end", time.perf_counter() - began, most))
        if process.returncode not in (0, 1):
            raise SystemExit(told.decode())
    after = os.times()
    took = after.children_user - before.children_user + after.children_system - before.children_system
    return peak, stages, took


def pieces_in(words: list[str]) -> int:
    """How many pieces were laid, as `plan` says it."""
    return next(int(found.group(1)) for line in words if (found := re.search(r"laid out: (\d+) pieces", line)))


def print_plans(lapwright: str, sizes: list[int], *, every: float = 0.02, stages: bool = False) -> None:
    """Plans of roofs of the sizes asked for, watched, as a table."""
    print(
        "\n| sq ft | whole plan, s of processors | s / (n log n), smallest = 1 | all processes, MB RSS | MB PSS ",
        end="",
    )
    print("| largest process, MB | at once |\n| ---: | ---: | ---: | ---: | ---: | ---: | ---: |")
    first = None
    for wide, deep, count in (one for one in SIZES if one[0] * one[1] in sizes):
        with tempfile.TemporaryDirectory() as folder:
            job = Path(folder, f"{count}.yaml")
            job.write_text(job_text(example_text(lapwright, Path(folder)), wide, deep, count))
            peak, said, took = watch([lapwright, "plan", str(job), "--out", str(Path(folder, "out"))], every)
        pieces = pieces_in([words for words, _, _ in said])
        rate = took / (pieces * math.log(pieces))
        first = first or rate
        together = f"{peak.rss / 1024:.0f}{BARS.get(count, '')}"
        cells = [f"{wide * deep:,}", f"{took:.1f}", f"{rate / first:.2f}", together, f"{peak.pss / 1024:.0f}"]
        cells += [f"{peak.single / 1024:.0f}", f"{peak.processes}"]
        print("| " + " | ".join(cells) + " |", flush=True)
        for words, seconds, most in said if stages else ():
            print(f"  {seconds:6.1f} s  {most / 1024:5.0f} MB together  {words}", file=sys.stderr)


def main() -> None:
    """Watch the plans that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sizes", default="10000,30000,100000", help="square feet, with commas between")
    parser.add_argument("--every", type=float, default=0.02, help="seconds from look to look")
    parser.add_argument("--stages", action="store_true", help="tell of each step, on standard error")
    given = parser.parse_args()
    print(machine())
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    print_plans(lapwright, [int(size) for size in given.sizes.split(",")], every=given.every, stages=given.stages)


if __name__ == "__main__":
    main()
