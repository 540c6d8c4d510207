"""Imports go down the steps of layers.toml, or sideways along the flow; a room stands alone."""

from __future__ import annotations

import ast
import subprocess
import sys
import tomllib
from collections.abc import Iterator, Mapping
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

LAYERS: dict[str, dict[str, Any]] = tomllib.loads((Path(__file__).parent / "layers.toml").read_text(encoding="utf-8"))
SOURCE = Path(__file__).resolve().parents[2] / "src"
TRADE_ROOMS = [room for room, step in LAYERS["steps"].items() if step == "trade"]
BELOW = {
    "ground": {"ground"},
    "trade": {"ground"},
    "paper": {"ground"},
    "desk": {"ground", "trade", "paper"},
    "door": {"ground", "desk"},
}
HEAVY = ("sqlalchemy", "fastapi", "ezdxf", "pydantic", "typer", "httpx", "pandas", "pvlib", "typst")


def longest(name: str, table: Mapping[str, Any]) -> str | None:
    """The longest key of the table that is the name or a folder of it."""
    parts = name.split(".")
    keys = [".".join(parts[:count]) for count in range(len(parts), 0, -1)]
    return next((key for key in keys if key in table), None)


def step_of(name: str) -> str:
    """The step a module stands on."""
    key = longest(name, LAYERS["steps"])
    assert key is not None and (key != "lapwright" or name == "lapwright"), f"{name} has no step in layers.toml"
    step: str = LAYERS["steps"][key]
    return step


def upstream(room: str) -> set[str]:
    """Rooms that a trade room may take from, all the way up the flow."""
    found: set[str] = set()
    waiting = list(LAYERS["flow"][room])
    while waiting:
        above = waiting.pop()
        found.add(above)
        waiting.extend(LAYERS["flow"][above])
    return found


def imports(module: Any, known: set[str]) -> Iterator[tuple[ast.AST, str]]:
    """Every name a module imports, wherever it stands in it; a module taken from a package by its full name."""
    is_package = module.path.name == "__init__.py"
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            yield from ((node, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            package = module.name.split(".")
            package = package[: len(package) - node.level + (1 if is_package else 0)] if node.level else []
            base = ".".join([*package, *([node.module] if node.module else [])])
            for alias in node.names:
                full = f"{base}.{alias.name}"
                yield node, full if full in known else base


def may_take(module: str, other: str) -> bool:
    """Whether a module may import another of ours."""
    here, there = step_of(module), step_of(other)
    room, other_room = module.split(".")[1:2], other.split(".")[1:2]
    if room == other_room or there in BELOW[here] or LAYERS["opens"].get(module) == other:
        return True
    is_values = other.split(".")[2:] == ["values"]
    if here == "paper":
        return there == "trade" and is_values
    if here != "trade" or there != "trade":
        return False
    allowed = upstream(room[0])
    only_values = {name for above in (*allowed, room[0]) for name in LAYERS["values"].get(above, ())}
    return other_room[0] in allowed or (is_values and other_room[0] in only_values)


def may_use(module: str, library: str) -> bool:
    """Whether a module may import a library or a part of the standard one."""
    step = step_of(module)
    if library in sys.stdlib_module_names:
        return library not in LAYERS["never"].get(step, ()) or library in LAYERS["excepted"].get(module, ())
    own = longest(module, LAYERS["libraries"])
    allowed = LAYERS["libraries"].get(own if own else step)
    return allowed is None or library in allowed


def told(wrong: list[str]) -> str:
    """Everything found, one a line: pytest alone would show the first."""
    return "\n".join(["", *wrong])


def test_every_import_goes_down_or_along_the_flow(modules: tuple[Any, ...]) -> None:
    """No module takes from a room above it or beside it, save along the flow."""
    known = {module.name for module in modules}
    wrong = [
        f"{module.place(node)}: {module.name} may not import {name}"
        for module in modules
        for node, name in imports(module, known)
        if name.split(".")[0] == "lapwright" and not may_take(module.name, name)
    ]
    assert wrong == [], told(wrong)


def test_every_library_is_one_the_room_may_use(modules: tuple[Any, ...]) -> None:
    """Ground and trade keep to their libraries; trade touches no file, clock, environment or network."""
    known = {module.name for module in modules}
    wrong = [
        f"{module.place(node)}: {module.name} may not import {name}"
        for module in modules
        for node, name in imports(module, known)
        if name.split(".")[0] != "lapwright" and not may_use(module.name, name.split(".")[0])
    ]
    assert wrong == [], told(wrong)


def test_trade_asks_no_clock_and_opens_no_file(modules: tuple[Any, ...]) -> None:
    """A trade room is given the time and what was read: it calls none of now, today, open, print, input."""
    wrong = [
        f"{module.place(node)}: {called}"
        for module in modules
        if step_of(module.name) == "trade"
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Call)
        for called in [node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")]
        if called in ("now", "utcnow", "today", "open", "print", "input", "getenv", "read_text", "write_text")
    ]
    assert wrong == [], told(wrong)


@pytest.mark.parametrize(
    ("module", "other", "expected"),
    [
        ("lapwright.roof.walk", "lapwright.units.read", True),
        ("lapwright.units.read", "lapwright.roof.values", False),
        ("lapwright.order.rolls", "lapwright.layout.courses", True),
        ("lapwright.order.rolls", "lapwright.roof.values", True),
        ("lapwright.layout.courses", "lapwright.order.rolls", False),
        ("lapwright.rulecheck.laps", "lapwright.layout.courses", False),
        ("lapwright.rulecheck.laps", "lapwright.layout.values", True),
        ("lapwright.wind.zones", "lapwright.layout.values", True),
        ("lapwright.wind.zones", "lapwright.layout.courses", False),
        ("lapwright.crew.days", "lapwright.weather.values", True),
        ("lapwright.packet.pdf", "lapwright.crew.values", True),
        ("lapwright.packet.pdf", "lapwright.crew.days", False),
        ("lapwright.packet.pdf", "lapwright.job.values", False),
        ("lapwright.job.read", "lapwright.plan.make", False),
        ("lapwright.plan.make", "lapwright.packet.pdf", True),
        ("lapwright.cli.main", "lapwright.plan.make", True),
        ("lapwright.cli.main", "lapwright.packet.pdf", False),
    ],
)
def test_the_rule_itself(module: str, other: str, expected: bool) -> None:
    """The rule lets through what the house plan allows and stops what it forbids."""
    assert may_take(module, other) is expected


@pytest.mark.parametrize(
    ("module", "library", "expected"),
    [
        ("lapwright.units.read", "numpy", True),
        ("lapwright.units.read", "shapely", False),
        ("lapwright.geometry.clip", "shapely", True),
        ("lapwright.heat.surface", "pvlib", True),
        ("lapwright.heat.surface", "pandas", False),
        ("lapwright.heat.surface", "os", False),
        ("lapwright.defaults.table", "csv", True),
        ("lapwright.job.read", "pydantic", True),
        ("lapwright.cli.main", "pydantic", False),
    ],
)
def test_the_rule_for_libraries(module: str, library: str, expected: bool) -> None:
    """Each step has its own libraries."""
    assert may_use(module, library) is expected


def test_imports_are_seen_wherever_they_stand() -> None:
    """Plain, from, relative, renamed, inside a function and for types alone: each import is found by its full name."""
    text = """
import numpy as np
from lapwright.units import read
from ..order import rolls as r
from .values import Sheet
def late():
    import lapwright.packet.pdf
if TYPE_CHECKING:
    from lapwright.job.model import Job
"""
    module = SimpleNamespace(name="lapwright.layout.courses", path=Path("courses.py"), tree=ast.parse(text))
    known = {"lapwright.units.read", "lapwright.order.rolls"}
    assert sorted(name for _, name in imports(module, known)) == [
        "lapwright.job.model",
        "lapwright.layout.values",
        "lapwright.order.rolls",
        "lapwright.packet.pdf",
        "lapwright.units.read",
        "numpy",
    ]


def loaded_after(statements: str) -> set[str]:
    """Top-level names of all modules that a fresh interpreter has loaded after the statements."""
    code = f"import sys\n{statements}\nsys.stderr.write(' '.join(sorted({{n.split('.')[0] for n in sys.modules}})))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False, env={"PYTHONPATH": str(SOURCE)}
    )
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


@pytest.mark.parametrize("room", TRADE_ROOMS)
def test_a_trade_room_stands_alone(room: str) -> None:
    """Importing every module of a trade room loads no page, reader, database or data frame."""
    folder = SOURCE.joinpath(*room.split("."))
    names = [f"{room}.{path.stem}" for path in sorted(folder.glob("*.py")) if path.stem != "__init__"]
    loaded = loaded_after("\n".join(f"import {name}" for name in [room, *names]))
    assert sorted(loaded.intersection(HEAVY)) == []


def test_help_loads_only_what_it_shows(root: Path) -> None:
    """`lapwright --help` starts without numpy, shapely, pydantic or any other heavy library."""
    doors = [path for path in [root / "src/lapwright/cli/main.py"] if path.exists()]
    loads = [loaded_after("import lapwright.cli.main") for _ in doors]
    heavy = {"numpy", "scipy", "shapely", "psychrolib", "ruamel", "xlsxwriter", *HEAVY} - {"typer"}
    assert [sorted(loaded & heavy) for loaded in loads] == [[] for _ in doors]
