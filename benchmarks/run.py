"""Cold starts of the commands: a new process, an empty HOME, no cache of ours; the median of five, machine named.

    make bench

Nothing here is asserted: machines are noisy.  The bars are printed beside the readings.
"""

import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

RUNS = 5


def machine() -> str:
    """The processor as the system names it, its cores, the Python."""
    name = platform.processor() or platform.machine()
    cpuinfo = Path("/proc/cpuinfo")
    if cpuinfo.exists():
        lines = cpuinfo.read_text().splitlines()
        names = [line.split(":", 1)[1].strip() for line in lines if line.startswith("model name")]
        name = names[0] if names else name
    return f"{name}, {os.cpu_count()} cores, {platform.system()}, Python {platform.python_version()}"


def wall(arguments: list[str], home: str) -> float:
    """Seconds of wall time of one command in a new process."""
    environment = {"PATH": os.environ["PATH"], "HOME": home, "LANG": "C.UTF-8"}
    began = time.perf_counter()
    done = subprocess.run(arguments, env=environment, capture_output=True, check=False)
    took = time.perf_counter() - began
    if done.returncode not in (0, 1):
        raise SystemExit(done.stderr.decode())
    return took


def main() -> None:
    """Time each command and print it beside its bar and beside bare Python."""
    lapwright = str(Path(sys.executable).with_name("lapwright"))
    print(machine())
    with tempfile.TemporaryDirectory() as folder:
        example = Path(folder, "example")
        subprocess.run([lapwright, "example", str(example)], check=True, capture_output=True)
        job = str(next(example.glob("*.yaml")))
        commands = [
            ("python -c pass", [sys.executable, "-c", "pass"], None),
            ("lapwright --help", [lapwright, "--help"], 0.25),
            ("lapwright check", [lapwright, "check", job], 0.5),
            ("lapwright plan", [lapwright, "plan", job, "--out", str(Path(folder, "out")), "--quiet"], 4.0),
        ]
        base = None
        for name, arguments, bar in commands:
            times = []
            for run in range(RUNS):
                home = Path(folder, f"home-{run}-{name.split()[-1]}")
                home.mkdir(exist_ok=True)
                times.append(wall(arguments, str(home)))
            median = statistics.median(times)
            base = base or median
            limit = "" if bar is None else f"  bar {bar:.2f} s"
            spread = f"least {min(times):.3f}, most {max(times):.3f}"
            print(f"{name:18} median {median:6.3f} s  ({spread}), {median / base:5.1f} x bare Python{limit}")


if __name__ == "__main__":
    main()
