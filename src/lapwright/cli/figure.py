"""`lapwright figure`: one calculation by itself."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator

from lapwright.cli.terminal import USED, refuse, say
from lapwright.faults import Fault, Refused


def figure(words: list[str]) -> int:
    """Compute and print; the exit status.  words: the name and its options, as typed."""
    from lapwright.plan.figures.figure import as_json
    from lapwright.plan.figures.lines import answer_lines, help_lines, list_lines
    from lapwright.plan.figures.registry import figure as figure_of
    from lapwright.units.write import Units

    asks = {word for word in words if word in ("--json", "--metric", "--help")}
    rest = [word for word in words if word not in asks]
    try:
        if not rest:
            return tell(list_lines())
        one = figure_of(rest[0])
        if "--help" in asks:
            return tell(help_lines(one))
        flags = {option.name for option in one.options if option.kind == "flag"}
        asked, answer = one.answer(given(one.name, rest[1:], flags))
    except Refused as refused:
        return refuse(refused)
    if "--json" in asks:
        return tell([json.dumps(as_json(asked, answer), indent=1, ensure_ascii=False, allow_nan=False)])
    return tell(answer_lines(one, asked, answer, Units("metric" if "--metric" in asks else "us")))


def tell(lines: Iterable[str]) -> int:
    """Lines to standard output; the exit status."""
    for line in lines:
        say(line)
    return USED


def given(name: str, words: list[str], flags: set[str]) -> dict[str, str]:
    """Texts by option, from `--air 25F`, `--air=25F` and flags.

    Raises: Refused for a word that belongs to no option, an option without a value, or one that is there twice.
    """
    found: dict[str, str] = {}
    faults: list[Fault] = []
    for option, text, problem in pairs(words, flags):
        if problem or option in found:
            needs = problem or "each option once"
            faults.append(Fault(f"figure {name}", 0, 0, f"--{option}" if option else "", text, needs, ""))
        found[option] = text
    if faults:
        raise Refused(faults)
    return found


def pairs(words: list[str], flags: set[str]) -> Iterator[tuple[str, str, str]]:
    """(option, text, what is needed instead) one after another."""
    rest = list(words)
    while rest:
        word = rest.pop(0)
        if not word.startswith("--") or word == "--":
            yield "", word, "options with two dashes, each with its value: --air 25F"
            continue
        option, mark, text = word.removeprefix("--").partition("=")
        if option in flags:
            yield option, text, "no value: it stands by itself" if mark else ""
        elif mark:
            yield option, text, ""
        elif rest and not rest[0].startswith("--"):
            yield option, rest.pop(0), ""
        else:
            yield option, "", "a value behind it"
