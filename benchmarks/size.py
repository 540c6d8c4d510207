"""How the layout grows with the roof: 10,000 to 1,000,000 sq ft with 60 curbs to 100,000, each in a new process.

    python benchmarks/size.py

Roofs are invented: rectangles with curbs of 2' to 8'.  Times are processor time, so that a busy machine shows less;
memory is the process's.  The last column is seconds over n log n, n the pieces laid, beside that of the smallest roof:
1.0 is n log n.  Nothing is asserted; the bars of two sizes are printed beside the readings.  Linux only.
"""

import json
import math
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

# feet east and north, curbs
SIZES = ((125, 80, 6), (200, 150, 18), (400, 250, 60), (600, 500, 180), (1000, 1000, 600))
LAYOUT_BARS = {60: " (bar 1.0)", 600: " (bar 12)"}


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
    # ru_maxrss would begin with what the process that started this one took
    status = Path("/proc/self/status").read_text()
    most = next(int(line.split()[1]) for line in status.splitlines() if line.startswith("VmHWM:"))
    print(json.dumps([len(layout.pieces), took, most / 1024]))


def growth(folder: Path, example: str) -> None:
    """The layout at every size, as a table."""
    print("\n| sq ft | curbs | pieces | layout, s of processor | MB | s / (n log n), smallest = 1 |")
    print("| ---: | ---: | ---: | ---: | ---: | ---: |")
    first = None
    for wide, deep, count in SIZES:
        job = folder / f"{count}.yaml"
        job.write_text(job_text(example, wide, deep, count))
        told = subprocess.run([sys.executable, __file__, str(job)], check=True, capture_output=True, text=True).stdout
        pieces, took, memory = json.loads(told)
        rate = took / (pieces * math.log(pieces))
        first = first or rate
        took_words = f"{took:.2f}{LAYOUT_BARS.get(count, '')}"
        cells = [f"{wide * deep:,}", f"{count}", f"{pieces:,}", took_words, f"{memory:.0f}", f"{rate / first:.2f}"]
        print("| " + " | ".join(cells) + " |", flush=True)


def main() -> None:
    """Print the table."""
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    with tempfile.TemporaryDirectory() as folder:
        growth(Path(folder), example_text(lapwright, Path(folder)))


if __name__ == "__main__":
    lay(sys.argv[1]) if len(sys.argv) > 1 else main()
