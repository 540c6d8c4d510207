"""Write docs/checks.md: every check against an outside value, with source, expected, ours, difference.

python tools/make_check_docs.py
"""

import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
PAGE = ROOT / "docs/checks.md"
HEAD = """# Checks against outside values

Made by `tools/make_check_docs.py` from the tables in `tests/published`; `make test` runs every row.

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


def page() -> str:
    """The page's text."""
    sys.path.insert(0, str(ROOT / "tests/published"))
    from test_published import as_text, bounds, computed, rows

    parts, room = [HEAD], ""
    for row in rows():
        if row["id"].split(".")[0] != room:
            room = row["id"].split(".")[0]
            parts.append(f"\n## {room}\n\n{COLUMNS}\n|---|---|---|---|---|---|---|")
        ours = computed(row)
        mark = "" if row["read"] == "read" or row["kind"] in ("exact", "independent", "hand", "practice") else " †"
        source = ", ".join(part for part in (row["source"], row["where"]) if part)
        if row["unit"] == "text":
            values = (row["expect"], as_text(ours), "", "")
        else:
            expect, tolerance = bounds(row)
            values = (number(expect), number(float(ours)), number(float(ours) - expect), number(tolerance))
        parts.append("| " + " | ".join(cell(v) for v in (row["id"], *values, row["kind"] + mark, source)) + " |")
    parts.append("\nValues are SI (temperatures °C) as the functions give them.\n")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    print(PAGE.name)
