"""Docs that are made from the code are current, and no link in them leads nowhere."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md")])
LINK = re.compile(r"\]\(([^)#]+)(?:#[^)]*)?\)")


def tool(name: str) -> ModuleType:
    """A script of tools/ as a module."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "tools" / f"{name}.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_commands_page_is_current() -> None:
    """docs/commands.md is what the commands say of themselves (`make docs` writes it)."""
    assert (ROOT / "docs/commands.md").read_text(encoding="utf-8") == tool("make_command_docs").page()


def test_checks_page_is_current() -> None:
    """docs/checks.md lists every row of the published tables with today's results (`make docs` writes it)."""
    assert (ROOT / "docs/checks.md").read_text(encoding="utf-8") == tool("make_check_docs").page()


@pytest.mark.parametrize("page", PAGES, ids=lambda path: path.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(page: Path) -> None:
    """Every relative link of a page names a file that is there."""
    targets = [target for target in LINK.findall(page.read_text(encoding="utf-8")) if "://" not in target]
    assert [target for target in targets if not (page.parent / target).exists()] == []


def test_every_command_and_option_is_documented() -> None:
    """Each command of the contract's plan, check and example stands on the page, with its options."""
    text = (ROOT / "docs/commands.md").read_text(encoding="utf-8")
    assert [
        word
        for word in (
            "plan",
            "check",
            "example",
            "figure",
            "--out",
            "--strict",
            "--layout",
            "--quiet",
            "--json",
            "--nozzle",
        )
        if word not in text
    ] == []
