"""Whoever is asked as an outsider is asked in tests/published, so that docs/checks.md lists the answer."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

TESTS = Path(__file__).parents[1]
OUTSIDERS = {"CoolProp", "fluids", "ht", "psychrolib", "pvlib"}


def imported(text: str) -> set[str]:
    """Top names of everything that a file imports, at its head or in a function."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            names.update(alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            names.add(node.module.split(".")[0])
        elif isinstance(node, ast.Call) and ast.unparse(node.func).split(".")[-1] in ("importorskip", "import_module"):
            names.update(str(one.value).split(".")[0] for one in node.args if isinstance(one, ast.Constant))
    return names


@pytest.mark.parametrize("text", ["import ht", "def f():\n    from pvlib import spa", "x = pytest.importorskip('ht')"])
def test_an_import_is_seen(text: str) -> None:
    """Wherever it stands."""
    assert imported(text) & OUTSIDERS


def test_outsiders_are_asked_where_their_answers_are_listed() -> None:
    """A test that compares with one of these libraries is a row of a `live_*.py`."""
    asked = {
        path.relative_to(TESTS).as_posix()
        for path in TESTS.rglob("*.py")
        if imported(path.read_text(encoding="utf-8")) & OUTSIDERS
    }
    assert {path for path in asked if not path.startswith("published/live_")} == set()


def test_every_comparison_has_its_row() -> None:
    """Each file of comparisons is run and listed, each id in docs/checks.md."""
    page = (TESTS.parent / "docs/checks.md").read_text(encoding="utf-8")
    for path in sorted((TESTS / "published").glob("live_*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        assert [node for node in tree.body if isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "LIVE"]
        ids = [node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and ".live-" in str(node.value)]
        assert [one for one in ids if f"| {str(one).rstrip('-')}" not in page] == [], path.name
        assert ids, path.name
