"""How layout and plan grow with the roof: 10,000, 100,000 and 1,000,000 sq ft, each in a new process.

    python benchmarks/size.py

Roofs are invented: rectangles with curbs of 2' to 8', one to 1,667 sq ft.  Times are processor time, so that a busy
machine shows less; memory is the largest process's.  What is told besides is a ratio within one run: seconds over
n log n, n the pieces laid, beside that of the smallest roof: 1.0 is n log n.  The bars are printed beside the readings.
"""

import json
import math
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SIZES = ((125, 80, 6), (400, 250, 60), (1000, 1000, 600))  # feet east and north, curbs
LAYOUT_BARS = {60: "1.0 s", 600: "12 s"}
PLAN_BAR = "500 MB"


def curbs(wide: int, deep: int, count: int) -> list[tuple[int, int, int, int]]:
    """Curbs, one in each field of a board: east, north, width, depth [ft]."""
    chance = random.Random(1)
    across = int((count * wide / deep) ** 0.5) + 1
    up = -(-count // across)
    fields = [(i, j) for i in range(across) for j in range(up)][:count]
    found = []
    for i, j in fields:
        east = int((i + 0.2 + 0.3 * chance.random()) * wide / across)
        north = int((j + 0.2 + 0.3 * chance.random()) * deep / up)
        found.append((east, north, chance.randint(2, 8), chance.randint(2, 8)))
    return found


def example_text(lapwright: str, folder: Path) -> str:
    """The job file of the example, as the command writes it to a folder."""
    made = folder / "example"
    subprocess.run([lapwright, "example", str(made)], check=True, capture_output=True)
    return next(made.glob("*.yaml")).read_text()


def job_text(example: str, wide: int, deep: int, count: int) -> str:
    """The example job with a rectangle of so many curbs as its roof."""
    head, _, rest = example.partition("roof:\n")
    openings = [
        f"      - {{name: O-{k}, kind: curb, at: E {east}' N {north}', size: E {w}' x N {d}', height: 12\"}}"
        for k, (east, north, w, d) in enumerate(curbs(wide, deep, count), start=1)
    ]
    metal = 'metal: {kind: galvanised, gauge: 24, face: 5", flange: 4"}'
    roof = [
        "roof:",
        "  - area: Main",
        "    start: E 0' N 0'",
        f"    outline: E {wide}', N {deep}', W {wide}', S {deep}'",
        "    falls: S",
        "    slope: 1/4 in 12",
        "    edges:",
        f"      - {{sides: 1, kind: metal_edge, {metal}}}",
        '      - {sides: 2-4, kind: parapet, height: 14"}',
        "    openings:",
        *openings,
        "    drains:",
        f'      - {{name: G-1, kind: gutter, side: 1, width: 12", outlets: {max(4, wide // 20)}}}',
        "",
    ]
    return head + "\n".join(roof) + "\nassembly:\n" + rest.partition("assembly:\n")[2]


def lay(job: str) -> None:
    """Lay out a job here, and print pieces, seconds and the memory it took [MB]; what has to be loaded is not timed."""
    from lapwright.plan.make import lay_out
    from lapwright.plan.reading import read_job_file
    from lapwright.plan.workers import load

    load(("shapely.ops", "shapely.affinity"))

    typed, roofs = read_job_file(Path(job))
    began = time.process_time()
    layout = lay_out(typed, roofs.areas)
    took = time.process_time() - began
    print(json.dumps([len(layout.pieces), took, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024]))


def growth(folder: Path, example: str) -> None:
    """The layout at every size."""
    first = None
    for wide, deep, count in SIZES:
        job = folder / f"{count}.yaml"
        job.write_text(job_text(example, wide, deep, count))
        told = subprocess.run([sys.executable, __file__, str(job)], check=True, capture_output=True, text=True).stdout
        pieces, took, memory = json.loads(told)
        rate = took / (pieces * math.log(pieces))
        first = first or rate
        bar = f"  bar {LAYOUT_BARS[count]}" if count in LAYOUT_BARS else ""
        size = f"layout {wide * deep:9,} sq ft {count:3} curbs"
        print(f"{size} {pieces:6} pieces {took:7.2f} s  {memory:4.0f} MB  {rate / first:5.2f} x n log n{bar}")


def whole_plan(folder: Path, example: str) -> None:
    """The plan of 100,000 sq ft from the command line."""
    wide, deep, count = SIZES[1]
    job = folder / "plan.yaml"
    job.write_text(job_text(example, wide, deep, count))
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    before = os.times()
    arguments = [lapwright, "plan", str(job), "--out", str(folder / "out"), "--quiet"]
    done = subprocess.run(arguments, capture_output=True, check=False)
    after = os.times()
    if done.returncode not in (0, 1):
        raise SystemExit(done.stderr.decode())
    took = after.children_user - before.children_user + after.children_system - before.children_system
    memory = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    wall = after.elapsed - before.elapsed
    size = f"plan   {wide * deep:9,} sq ft {count:3} curbs"
    print(f"{size} {wall:.1f} s, {took:.1f} s of processors, largest process so far {memory:.0f} MB  bar {PLAN_BAR}")


def main() -> None:
    """Print the table."""
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    with tempfile.TemporaryDirectory() as folder:
        example = example_text(lapwright, Path(folder))
        whole_plan(Path(folder), example)
        growth(Path(folder), example)


if __name__ == "__main__":
    lay(sys.argv[1]) if len(sys.argv) > 1 else main()
