"""The source as the house tests read it: parsed, never imported."""

from __future__ import annotations

import ast
from dataclasses import dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src"


@dataclass(frozen=True)
class Module:
    """A module of the package: dotted name, path, text and tree."""

    name: str
    path: Path
    text: str
    tree: ast.Module

    @property
    def room(self) -> str:
        """`lapwright.layout` of `lapwright.layout.courses`."""
        return ".".join(self.name.split(".")[:2])

    def place(self, node: ast.AST) -> str:
        """File and line, for a message."""
        return f"{self.path.relative_to(ROOT).as_posix()}:{getattr(node, 'lineno', 0)}"


def read_module(path: Path) -> Module:
    """One file of the source."""
    parts = list(path.relative_to(SOURCE).with_suffix("").parts)
    name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
    text = path.read_text(encoding="utf-8")
    return Module(name, path, text, ast.parse(text))


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's folder."""
    return ROOT


@pytest.fixture(scope="session")
def modules() -> tuple[Module, ...]:
    """Every module of the package, by path."""
    return tuple(read_module(path) for path in sorted((SOURCE / "lapwright").rglob("*.py")))
