"""How much memory a whole `plan` takes: all its processes together, and the largest of them.

    python benchmarks/memory.py [--sizes 100000] [--every 0.02]

The roofs are those of benchmarks/size.py.  Every so many seconds the processes below `plan` are looked up in /proc
and their memory is added: RSS counts a page that two processes share twice, PSS shares it out between them.  What is
told is the most that was found at one time; the bar is for all processes together, by RSS.  Linux only; nothing is
asserted.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from run import machine
from size import SIZES, example_text, job_text

BAR_MB = 500
FIELDS = ("Rss:", "Pss:")


@dataclass(slots=True)
class Peak:
    """The most found so far [kB]: all processes together by RSS and by PSS, one process, and how many at once.

    stages: the most of all together, by RSS, while each line of words of `plan` stood last.
    """

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


def print_peak(lapwright: str, folder: Path, size: tuple[int, int, int], every: float) -> None:
    """The plan of a roof, watched."""
    wide, deep, count = size
    job = folder / f"{count}.yaml"
    job.write_text(job_text(example_text(lapwright, folder), wide, deep, count))
    peak, stages, took = watch([lapwright, "plan", str(job), "--out", str(folder / f"out-{count}")], every)
    print(f"\nplan of {wide * deep:,} sq ft, {count} curbs: {took:.1f} s of processors")
    print(f"all processes together {peak.rss / 1024:.0f} MB by RSS, {peak.pss / 1024:.0f} MB by PSS  bar {BAR_MB} MB")
    print(f"largest process {peak.single / 1024:.0f} MB; at most {peak.processes} at once")
    for words, seconds, most in stages:
        print(f"  {seconds:6.1f} s  {most / 1024:5.0f} MB together  {words}")


def main() -> None:
    """Watch the plans that are asked for."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--sizes", default="100000", help="square feet, with commas between")
    parser.add_argument("--every", type=float, default=0.02, help="seconds from look to look")
    given = parser.parse_args()
    wanted = [int(size) for size in given.sizes.split(",")]
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    print(machine())
    for size in (one for one in SIZES if one[0] * one[1] in wanted):
        with tempfile.TemporaryDirectory() as folder:
            print_peak(lapwright, Path(folder), size, given.every)


if __name__ == "__main__":
    main()
