"""Write docs/checks.md: every check against an outside value, with source, expected, ours, difference.

python tools/make_check_docs.py
"""

import sys
import warnings
from collections.abc import Iterator
from operator import itemgetter
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs/checks.md"
HEAD = """# Checks against outside values

Made by `tools/make_check_docs.py` from the tables in `tests/published` and from the comparisons of
`tests/published/live_*.py`, which ask the other side anew; `make test` runs every row, at every point.

A comparison at many points has one row: the span of theirs and ours, how many points, and the greatest difference,
measured by what is allowed there, with the place where it is.
Slow versions of our own (tests/reference) are no outside values and have no row.

*kind*: `published` read off a source; `exact` closed form or definition; `independent` another library;
`hand` counted by a person; `practice` common practice, no source.
† the source's value is from memory and nobody has read the page yet.
"""
COLUMNS = "| check | expected | ours | difference | tolerance | kind | source |"


def cell(text: str) -> str:
    """Text that can stand in a table."""
    return text.replace("|", "\\|").replace("\n", " ")


def number(value: float) -> str:
    """A number short enough to read."""
    return f"{value:.6g}"


def apart(ours: float, expect: float, digits: int = 6) -> str:
    """The difference; one that is only the last bits of the numbers, which machines differ in, is 0."""
    return "0" if abs(ours - expect) <= 1e-12 * abs(expect) else f"{ours - expect:.{digits}g}"


def line(*cells: str) -> str:
    """A row of a table."""
    return "| " + " | ".join(cell(one) for one in cells) + " |"


def table_lines() -> Iterator[tuple[str, str]]:
    """Room and row of the page, for each row of the tables."""
    from test_published import as_text, bounds, computed, rows

    for row in rows():
        ours = computed(row)
        mark = "" if row["read"] == "read" or row["kind"] in ("exact", "independent", "hand", "practice") else " †"
        source = ", ".join(part for part in (row["source"], row["where"]) if part)
        if row["unit"] == "text":
            values = (row["expect"], as_text(ours), "", "")
        else:
            expect, tolerance = bounds(row)
            values = (number(expect), number(float(ours)), apart(float(ours), expect), number(tolerance))
        yield row["id"].split(".")[0], line(row["id"], *values, row["kind"] + mark, source)


def span(values: NDArray[np.float64]) -> str:
    """From the least to the greatest."""
    return f"{values.min():.4g} … {values.max():.4g}"


def live_lines() -> Iterator[tuple[str, str]]:
    """Room and row of the page, for each comparison: a row a point, or one for all where they are many."""
    from compared import FEW, live_rows

    for row in live_rows():
        theirs, ours = row.both
        kind = row.kind + (" †" if "from memory" in row.source else "")
        source, unit = f"{row.source}, {row.where}", f" {row.unit}".rstrip()
        room, worst = row.id.split(".")[0], row.worst
        for place in range(len(row.at)) if len(row.at) <= FEW else ():
            values = [f"{one:.4g}{unit}" for one in (theirs[place], ours[place])]
            found = apart(ours[place], theirs[place], 3), f"{row.allowed[place]:.3g}"
            yield room, line(f"{row.id}, {row.at[place]}", *values, *found, kind, source)
        if len(row.at) > FEW:
            found = f"{ours[worst] - theirs[worst]:.3g} at {row.at[worst]}", f"{row.allowed[worst]:.3g}"
            yield (
                room,
                line(f"{row.id}, {len(row.at)} points", span(theirs) + unit, span(ours) + unit, *found, kind, source),
            )


def page() -> str:
    """The page's text."""
    sys.path.insert(0, str(ROOT / "tests/published"))
    parts, room = [HEAD], ""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # other libraries', of their own parts
        lines = [*table_lines(), *live_lines()]
    for this, text in sorted(lines, key=itemgetter(0)):
        if this != room:
            room = this
            parts.append(f"\n## {room}\n\n{COLUMNS}\n|---|---|---|---|---|---|---|")
        parts.append(text)
    parts.append("\nValues are SI (temperatures °C) as the functions give them, unless a unit stands beside them.\n")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(PAGE.name)
