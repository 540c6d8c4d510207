"""The glossary: whole, in order, without doubles, and holding the words that the code prints."""

from __future__ import annotations

import re
from pathlib import Path

from lapwright.hours.values import OPERATIONS, STATE_WORDS


def entries(root: Path) -> dict[str, list[list[str]]]:
    """Rows of each table by its heading, without heads and rules."""
    found: dict[str, list[list[str]]] = {}
    heading = ""
    for line in (root / "docs/words.md").read_text(encoding="utf-8").splitlines():
        heading = line.removeprefix("## ") if line.startswith("## ") else heading
        cells = [cell.strip() for cell in line.strip("|").split("|")] if line.startswith("|") else []
        found.setdefault(heading, []).extend([cells] if cells and cells[0] not in ("name", "---") else [])
    return found


def test_every_entry_has_name_unit_meaning_and_symbol(root: Path) -> None:
    """Four cells, of which name and meaning are never empty; a meaning is a sentence."""
    rows = [row for rows in entries(root).values() for row in rows]
    assert [row for row in rows if len(row) != 4 or not row[0] or not row[2].endswith(".")] == []


def test_no_word_is_explained_twice(root: Path) -> None:
    """One word, one meaning."""
    names = [row[0].lower() for rows in entries(root).values() for row in rows]
    assert [name for name in names if names.count(name) > 1] == []


def test_tables_are_in_order(root: Path) -> None:
    """Words are found by their first letter."""
    tables = {head: [re.sub(r"[^a-z0-9 ]", "", row[0].lower()) for row in rows] for head, rows in entries(root).items()}
    assert {head: names for head, names in tables.items() if names != sorted(names)} == {}


def test_states_and_operations_are_in_it(root: Path) -> None:
    """What a column of hours can say is explained."""
    text = " ".join(row[0] for rows in entries(root).values() for row in rows)
    assert [word for word in (*STATE_WORDS, *OPERATIONS) if not re.search(rf"\b{word}\b", text)] == []
