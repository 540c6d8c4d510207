"""What makes no table: a key twice, a key without a value, a value that a comma in braces has split."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace

from lapwright.job.trap import quoted
from lapwright.job.tree import Pair, Text

_FIRST_WORD = re.compile(r"[^\s:]+")
_PLACE_PART = re.compile(r"[ENWSenws] ?[0-9].*")
_NO_COLON = re.compile(r"([a-z_]+) +(\S.*)")
_THOUSANDS = re.compile(r"[0-9]{3}(?:[^0-9].*)?")


def is_nothing(node: object) -> bool:
    """Nothing was typed."""
    return isinstance(node, Text) and node.value == "" and not node.is_quoted and not node.is_spoilt


def with_colon_apart(pair: Pair) -> Pair:
    """`{at:}` is to YAML a key `at:`; here its key is `at`."""
    key = pair.key
    if not is_nothing(pair.value) or key.is_quoted or not key.value.endswith(":"):
        return pair
    return Pair(replace(key, value=key.value[:-1], end=key.end - 1, typed=key.typed[:-1]), pair.value)


def grouped(pairs: Iterable[Pair]) -> list[tuple[Pair, list[Text]]]:
    """Each pair of a table in braces with the pieces of its value that commas cut off.

    `{outline: E 120', N 64', falls: S}` is to YAML a key `N 64'` without a value; it belongs to `outline`.  What
    begins with the name of a key is taken for a key that was left empty, or lacks its colon.
    """
    groups: list[tuple[Pair, list[Text]]] = []
    for pair in pairs:
        is_tail = is_nothing(pair.value) and not _is_known(pair.key.value)
        if groups and is_tail and isinstance(groups[-1][0].value, Text) and not is_nothing(groups[-1][0].value):
            groups[-1][1].append(pair.key)
        else:
            groups.append((pair, []))
    return groups


def _is_known(text: str) -> bool:
    from lapwright.job.keys import key_names  # only where something is wrong, and the models are loaded by then

    found = _FIRST_WORD.match(text)
    return found is not None and found[0] in key_names()


def lacking(key: str) -> tuple[str, str]:
    """What is needed, and what to write, for a key without a value."""
    found = _NO_COLON.fullmatch(key)
    if found is not None:
        return f"a colon and a space behind {found[1]}", f"{found[1]}: {found[2]}"
    return "a value behind the key, or the key left out", ""


def unbroken(key: str, read: str, parts: list[str]) -> tuple[str, str]:
    """What is needed, and what to write, for a value that commas in braces split into `parts`."""
    if key == "outline":
        return "a walk on a line of its own; inside braces a comma ends the value", f"outline: {read}"
    needs = "a value without a comma; inside braces a comma ends it"
    if len(parts) == 2 and all(_PLACE_PART.fullmatch(part) for part in parts):
        return needs, f"{key}: {' '.join(parts)}"
    if len(parts) == 2 and parts[0].isdigit() and _THOUSANDS.fullmatch(parts[1]):
        return needs, f"{key}: {''.join(parts)}"
    return needs, f"{key}: {quoted(read)}"
