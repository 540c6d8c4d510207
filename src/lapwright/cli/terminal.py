"""What the terminal shows: progress, faults, the closing line.  Colour only where it is wanted."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Iterable
from dataclasses import dataclass, field

from lapwright.faults import Mended, Refused
from lapwright.verdict import Check

USED, FAILED, UNUSABLE = 0, 1, 2
STYLES = {"bold": "1", "red": "31", "yellow": "33", "green": "32", "dim": "2"}


def has_colour(stream: object) -> bool:
    """A terminal is there and nobody asked for plain text (NO_COLOR, TERM=dumb)."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return False
    return bool(getattr(stream, "isatty", lambda: False)())


def paint(text: str, style: str, stream: object) -> str:
    """Text in a style, or plain."""
    return f"\x1b[{STYLES[style]}m{text}\x1b[0m" if has_colour(stream) else text


@dataclass
class Progress:
    """One line to standard error for each step done, with the seconds it took; silent when quiet."""

    quiet: bool
    since: float = field(default_factory=time.perf_counter)

    def __call__(self, text: str) -> None:
        """Tell that a step is done."""
        now = time.perf_counter()
        if not self.quiet:
            took = paint(f"{now - self.since:5.1f} s", "dim", sys.stderr)
            sys.stderr.write(f"{took}  {text}\n")
            sys.stderr.flush()
        self.since = now


def say(text: str) -> None:
    """One line to standard output."""
    sys.stdout.write(text + "\n")


def refuse(refused: Refused) -> int:
    """Tell every fault on standard error; the exit status for input that can't be used."""
    count = len(refused.faults)
    head = "one thing in the input can't be used" if count == 1 else f"{count} things in the input can't be used"
    sys.stderr.write(paint(head + ":", "red", sys.stderr) + "\n\n" + refused.text() + "\n")
    return UNUSABLE


def tell_mended(mended: Iterable[Mended]) -> None:
    """What was mended on the way in."""
    for note in mended:
        sys.stderr.write(paint("mended", "yellow", sys.stderr) + f"  {note.text()}\n")


def closing(checks: Iterable[Check]) -> str:
    """The last line: how many checks passed, failed and are unknown."""
    counts = {"pass": 0, "fail": 0, "unknown": 0}
    for check in checks:
        counts[check.status] += 1
    return f"checks: {counts['pass']} passed, {counts['fail']} failed, {counts['unknown']} unknown"


def tell_checks(checks: Iterable[Check]) -> None:
    """Every check that failed or is unknown, with what to supply."""
    for check in checks:
        if check.status == "fail":
            say(paint("failed ", "red", sys.stdout) + f"  {check.id}: {check.title}")
        elif check.status == "unknown":
            supply = check.supply_words
            say(
                paint("unknown", "yellow", sys.stdout)
                + f"  {check.id}: {check.title}"
                + (f" (give {supply})" if supply else "")
            )


def status_of(checks: Iterable[Check], *, strict: bool) -> int:
    """Exit status: 1 where a check failed, or with `strict` where one is unknown."""
    statuses = {check.status for check in checks}
    return FAILED if "fail" in statuses or (strict and "unknown" in statuses) else USED
