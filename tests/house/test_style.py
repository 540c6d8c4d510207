"""The style where it can be counted: sizes, empty packages, sources of formulas, units kept in one room."""

from __future__ import annotations

import ast
import csv
import fnmatch
import io
import re
import tokenize
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
STEPS: dict[str, str] = tomllib.loads((HERE / "layers.toml").read_text(encoding="utf-8"))["steps"]
LONGEST_FUNCTION = 60
LONGEST_FILE = 400
# Factors between units that only `units` may know: inch, foot, pound, psi, psf, mph, absolute zero in °F.
UNIT_NUMBER = re.compile(
    r"25\.40*|0?\.0254|2\.540*|304\.80*|0?\.3048[0-9]*|3\.28[0-9]*|39\.37[0-9]*|6\.89[0-9]*|689[45]\.?[0-9]*"
    r"|47\.88[0-9]*|459\.67|0?\.4470?4?|2\.23[67][0-9]*|0?\.4535?[69][0-9]*|2\.204[0-9]*|3\.785[0-9]*"
)
# Sources that are no outside work: there is nothing printed elsewhere to compare with.
OWN = re.compile(
    r"(arithmetic|geometry|common practice|definition|defaults/|docs/|rows? |the rules|(a )?method of our own)"
)
# Rooms of formulas: every public function there is a calculation.  In the others (placing, counting, walking through
# hours) it is those that another room takes.
FORMULA_ROOMS = ("wind", "fasten", "drains", "deck", "weather", "heat", "hours", "power")


def functions(tree: ast.AST) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
    """Every function, wherever it stands."""
    return (node for node in ast.walk(tree) if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef))


def lines_of(function: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring."""
    first = function.body[0]
    has_words = isinstance(first, ast.Expr) and isinstance(first.value, ast.Constant) and ast.get_docstring(function)
    words = (first.end_lineno or 0) - first.lineno + 1 if has_words else 0
    return (function.end_lineno or 0) - function.lineno + 1 - words


def trade(modules: tuple[Any, ...]) -> list[Any]:
    """The modules of the trade rooms."""
    return [module for module in modules if STEPS.get(module.room) == "trade"]


def public(modules: tuple[Any, ...]) -> dict[str, str]:
    """Dotted name and docstring of each public function of the trade rooms."""
    taken = taken_elsewhere(modules)
    return {
        f"{module.name}.{node.name}": ast.get_docstring(node) or ""
        for module in trade(modules)
        for node in module.tree.body
        if isinstance(node, ast.FunctionDef)
        and not node.name.startswith("_")
        and (module.name.split(".")[1] in FORMULA_ROOMS or (module.name, node.name) in taken)
    }


def taken_elsewhere(modules: tuple[Any, ...]) -> set[tuple[str, str]]:
    """(module, name) of everything that a module outside its room imports by name or through its module."""
    known = {module.name for module in modules}
    found: set[tuple[str, str]] = set()
    for module in modules:
        brought: dict[str, str] = {}
        for node in ast.walk(module.tree):
            if isinstance(node, ast.ImportFrom) and node.module and room(node.module) != module.room:
                found.update((node.module, alias.name) for alias in node.names)
                brought |= {alias.asname or alias.name: f"{node.module}.{alias.name}" for alias in node.names}
        found.update(
            (brought[node.value.id], node.attr)
            for node in ast.walk(module.tree)
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name)
            if brought.get(node.value.id) in known
        )
    return found


def room(name: str) -> str:
    """`lapwright.layout` of `lapwright.layout.courses`."""
    return ".".join(name.split(".")[:2])


def part_of(docstring: str, head: str) -> str:
    """What a docstring says after `Source:` or `Checked:`, on one line, up to the next such head."""
    found = re.search(rf"^\s*{head}:\s*(.*?)(?=^\s*[A-Z][a-z]+(?: for)?:|\Z)", docstring, re.MULTILINE | re.DOTALL)
    return " ".join(found[1].split()) if found else ""


def uncovered() -> dict[str, str]:
    """Functions excused from a source or a check, with the reason."""
    with (HERE / "uncovered.csv").open(encoding="utf-8", newline="") as stream:
        return {row["function"]: row["reason"] for row in csv.DictReader(stream, strict=True)}


def published(root: Path) -> list[dict[str, str]]:
    """All rows of check values."""
    found = []
    for path in sorted((root / "tests/published").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as stream:
            found.extend({**row, "file": path.name} for row in csv.DictReader(stream, strict=True))
    return found


def unresolved(checked: str, root: Path, ids: list[str]) -> list[str]:
    """References of a `Checked:` that lead nowhere; the whole of it if it holds none."""
    tokens = re.findall(r"[A-Za-z0-9_'][A-Za-z0-9_./*'°+-]*", checked.replace("…", ""))
    table = ""
    missing, seen = [], 0
    for token in (token.rstrip(".,;") for token in tokens):
        if "/" in token:
            seen += 1
            table = Path(token).stem
            missing.extend([] if (root / token.split("::")[0]).exists() else [token])
        elif re.search(r"[.*-]", token):
            seen += 1
            hits = [name for name in ids if fnmatch.fnmatchcase(name, token)]
            hits += [name for name in ids if fnmatch.fnmatchcase(name, f"{table}.{token}")]
            missing.extend([] if hits else [token])
    return missing if seen else [checked]


def told(wrong: list[str]) -> str:
    """Everything found, one a line: pytest alone would show the first."""
    return "\n".join(["", *wrong])


def test_packages_hold_a_docstring_only(modules: tuple[Any, ...]) -> None:
    """Importing a room does no work; the package itself adds its version."""
    wrong = [
        module.place(node)
        for module in modules
        if module.path.name == "__init__.py"
        for node in module.tree.body[1:] or ([] if ast.get_docstring(module.tree) else [module.tree])
        if not (module.name == "lapwright" and ast.unparse(node).startswith("__version__ = "))
    ]
    assert wrong == [], told(wrong)


def test_every_module_says_what_it_is_for(modules: tuple[Any, ...]) -> None:
    """Each module opens with a docstring."""
    assert [module.name for module in modules if not ast.get_docstring(module.tree)] == []


def test_no_function_is_long(modules: tuple[Any, ...]) -> None:
    """No function has more than 60 lines beside its docstring."""
    wrong = [
        f"{module.place(node)} {node.name}: {lines_of(node)} lines"
        for module in modules
        for node in functions(module.tree)
        if lines_of(node) > LONGEST_FUNCTION
    ]
    assert wrong == [], told(wrong)


def test_nearly_every_function_is_short(modules: tuple[Any, ...]) -> None:
    """At least 95 of 100 functions have no more than 40 lines beside their docstring."""
    sizes = sorted(lines_of(node) for module in modules for node in functions(module.tree))
    assert sizes[len(sizes) * 95 // 100] <= 40


def test_no_file_is_long(modules: tuple[Any, ...]) -> None:
    """No file has more than 400 lines."""
    counts = {module.name: module.text.count("\n") for module in modules}
    assert {name: count for name, count in counts.items() if count > LONGEST_FILE} == {}


def test_no_module_is_named_for_nothing(modules: tuple[Any, ...]) -> None:
    """Modules are named by what they are about."""
    empty = {"utils", "util", "helpers", "common", "manager", "service", "engine", "base", "misc"}
    assert [module.name for module in modules if module.name.split(".")[-1] in empty] == []


def test_public_functions_of_the_trade_name_their_source(modules: tuple[Any, ...]) -> None:
    """Each says `Source:`, be it arithmetic or common practice, or is excused with a reason."""
    excused = uncovered()
    wrong = [name for name, words in public(modules).items() if not part_of(words, "Source") and name not in excused]
    assert wrong == [], told(wrong)


def test_sourced_formulas_have_a_check_value(modules: tuple[Any, ...], root: Path) -> None:
    """What names an outside work is compared with it, or excused with a reason."""
    excused = uncovered()
    called = {row["call"] for row in published(root)}
    wrong = [
        name
        for name, words in public(modules).items()
        if part_of(words, "Source")
        and not OWN.match(part_of(words, "Source"))
        and not part_of(words, "Checked")
        and name not in called
        and name not in excused
    ]
    assert wrong == [], told(wrong)


def test_excuses_are_used_and_reasoned(modules: tuple[Any, ...]) -> None:
    """Each line of uncovered.csv names a function that is there, and says why."""
    known = public(modules)
    assert [name for name, reason in uncovered().items() if name not in known or len(reason) < 10] == []


def test_checked_leads_to_rows(modules: tuple[Any, ...], root: Path) -> None:
    """Every id after `Checked:` is a row of a table in tests/published, every path there is a file."""
    ids = [row["id"] for row in published(root)]
    wrong = [
        f"{module.place(node)} {node.name}: {missing}"
        for module in modules
        for node in functions(module.tree)
        for checked in [part_of(ast.get_docstring(node) or "", "Checked")]
        if checked
        for missing in unresolved(checked, root, ids)
    ]
    assert wrong == [], told(wrong)


def test_a_reference_to_no_row_is_seen(root: Path) -> None:
    """A `Checked:` with a wrong id, a wrong file or no id at all does not pass."""
    ids = ["heat.contact-wood", "units.psf"]
    assert unresolved("tests/published/units.csv psf-*", root, ids) == ["psf-*"]
    assert unresolved("tests/published/nothing.csv heat.contact-*", root, ids) == ["tests/published/nothing.csv"]
    assert unresolved("by hand", root, ids) == ["by hand"]
    assert unresolved("heat.contact-*, units.psf", root, ids) == []


def test_a_long_function_and_a_factor_are_seen() -> None:
    """Lines are counted without the docstring; factors are known in each spelling, other numbers left alone."""
    long = 'def f():\n    """One.\n\n    Two.\n    """\n' + "    x = 1\n" * 60
    assert [lines_of(function) for function in functions(ast.parse(long))] == [61]
    assert [text for text in ("25.4", "0.0254", "3.28084", "47.88026", "6894.757", "459.67", "0.3048", "0.44704")
            if not UNIT_NUMBER.fullmatch(text)] == []  # fmt: skip
    assert [
        text for text in ("25.5", "3.2", "6", "48", "460", "0.3", "0.45", "80000") if UNIT_NUMBER.fullmatch(text)
    ] == []


def test_only_units_knows_other_units(modules: tuple[Any, ...]) -> None:
    """No trade room holds a factor between units."""
    wrong = [
        f"{module.path.name}:{token.start[0]}: {token.string}"
        for module in trade(modules)
        for token in tokenize.generate_tokens(io.StringIO(module.text).readline)
        if token.type == tokenize.NUMBER and UNIT_NUMBER.fullmatch(token.string.replace("_", ""))
    ]
    assert wrong == [], told(wrong)


def test_check_values_are_whole(root: Path) -> None:
    """Each row has its id after its table, a kind we know, a source, a tolerance, and says whether it was read."""
    kinds = ("published", "exact", "independent", "hand", "practice")
    wrong = [
        row["id"]
        for row in published(root)
        if row["kind"] not in kinds
        or row["read"] not in ("read", "from memory", "")
        or not row["source"]
        or not (row["tol"] or row["unit"] == "text")
        or (row["kind"] == "published" and not row["read"])
    ]
    assert wrong == [], told(wrong)


def test_no_check_value_is_there_twice(root: Path) -> None:
    """No two rows share an id or a case."""
    rows = published(root)
    ids = [row["id"] for row in rows]
    cases = [(row["call"], row["given"]) for row in rows]
    assert [name for name in ids if ids.count(name) > 1] == []
    assert [case for case in cases if cases.count(case) > 1] == []
