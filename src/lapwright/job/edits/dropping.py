"""Takes a key or a list's item out of a job file, with its own lines and the comment behind it.

Comments on lines before it or behind it stay, those between its own lines go with it.  A list that becomes empty goes
with its key; a table that does stays as `{}`, save where the reader would refuse that: then it goes as well.
"""

from __future__ import annotations

import re

from lapwright.job.edits.draft import Draft, begin, steps_of, with_change
from lapwright.job.edits.entries import Span, place_in, spans
from lapwright.job.tree import Path, Row, Table, plain

# Keys that may be left out, yet never stand there with nothing in their braces.
NEVER_EMPTY = frozenset({"weather", "areas", "outline"})

_GAP = re.compile(r"(?:[ \r\n]|#[^\r\n]*)*")
_REST = re.compile(r" *(?:#[^\r\n]*)?(?=\r|\n|$)")


def drop_value(text: str, path: str, *, file: str = "job.yaml") -> str:
    """The job file's text without what stands at a path.

    Args:
        text: the whole file; it must have the form of a job file, its meaning is not asked.
        path: of a key, or of a list's item, as faults show it: `roof[0].closure`, `roof[0].openings[1]`.

    Raises: Refused where the file can't be read, or has nothing at the path.
    """
    return dropped(begin(text, file=file), steps_of(path, file=file)).text


def dropped(draft: Draft, path: Path) -> Draft:
    """The draft without what stands at a path.

    Raises: Refused where it has nothing there.
    """
    if draft.at(path) is None:
        raise draft.refused(path, "a key or an item that the file has", read="")
    whole = _with_its_holder(draft, path)
    wanted = with_change(plain(draft.reading.root), whole[:-1], lambda holder: _without(holder, whole[-1]))
    holder = draft.at(whole[:-1])
    assert isinstance(holder, Table | Row)  # something stands in it
    cuts = _flow_cuts(draft, holder, whole[-1]) if holder.is_flow else _block_cuts(draft, holder, whole)
    made = draft.take([_without_spans(draft.text, cuts)], wanted)
    if made is None:
        raise draft.refused(path, "a key or an item that can be taken out by itself; change it in the text", read="")
    return made


def _with_its_holder(draft: Draft, path: Path) -> Path:
    """The path, or that of the list or table above it that has nothing else and can't stand there empty."""
    while len(path) > 1:
        above = draft.at(path[:-1])
        is_last_item = isinstance(above, Row) and len(above.items) == 1
        is_last_key = isinstance(above, Table) and len(above.pairs) == 1 and path[-2] in NEVER_EMPTY
        if not is_last_item and not is_last_key:
            break
        path = path[:-1]
    return path


def _without(holder: object, step: str | int) -> object:
    if isinstance(holder, list):
        return [item for place, item in enumerate(holder) if place != step]
    assert isinstance(holder, dict)  # a key stands in a table
    return {name: item for name, item in holder.items() if name != step}


def _without_spans(text: str, cuts: list[tuple[int, int, str]]) -> str:
    """The text with other characters, or none, in the place of each span; spans do not overlap."""
    for start, end, instead in sorted(cuts, reverse=True):
        text = text[:start] + instead + text[end:]
    return text


Cut = tuple[int, int, str]


def _block_cuts(draft: Draft, holder: Table | Row, path: Path) -> list[Cut]:
    """What to cut for an entry that stands on lines of its own, or behind a dash."""
    every = spans(draft, holder)
    place = place_in(holder, path[-1])
    start, end = every[place]
    stop = draft.line_stop(end)
    if len(every) == 1 and len(path) > 1:
        return _emptied(draft, path, (start, stop))
    if draft.has_own_line(start):
        return [(draft.line_start(start), draft.past_line(end), "")]
    if place + 1 < len(every) and not draft.text[stop : every[place + 1][0]].strip():
        return [(start, every[place + 1][0], "")]
    while draft.text.startswith(" ", start - 1):
        start -= 1
    return [(start, stop, "")]


def _emptied(draft: Draft, path: Path, own: Span) -> list[Cut]:
    """What to cut where a block loses its last entry: braces stand behind its key, or behind its dash."""
    start, stop = own
    if not draft.has_own_line(start):
        return [(start, stop, "{}")]
    above = path[:-1]
    lines = (draft.line_start(start), draft.past_line(stop), "")
    if isinstance(above[-1], str):
        behind = draft.behind_key(above)
    else:
        row = draft.at(above[:-1])
        assert isinstance(row, Row)  # an item stands in a list
        behind = spans(draft, row)[above[-1]][0] + 1
    return [(behind, behind, " {}"), lines]


def _flow_cuts(draft: Draft, holder: Table | Row, step: str | int) -> list[Cut]:
    """What to cut for an entry between commas, one comma with it."""
    text, every, place = draft.text, spans(draft, holder), place_in(holder, step)
    start, end = every[place]
    gap = _GAP.match(text, end)
    comma = gap.end() if gap else end
    if text.startswith(",", comma):
        return _before_comma(draft, every, place, comma)
    if place == 0:
        is_bare = text[holder.start + 1 : start].strip() == "" == text[end : holder.end - 1].strip()
        return [(holder.start + 1, holder.end - 1, "")] if is_bare else [(start, end, "")]
    last = every[place - 1][1]
    rest = _REST.match(text, end)
    is_own = draft.has_own_line(start) and rest is not None
    gap = _GAP.match(text, last)
    comma = gap.end() if gap else last
    if "#" in text[last:start]:
        own = (draft.line_start(start), draft.past_line(end), "") if is_own else (start, end, "")
        return [(comma, comma + 1, ""), own]
    if is_own:
        end = draft.line_stop(end)
    return [(last, end, "")]


def _before_comma(draft: Draft, every: list[Span], place: int, comma: int) -> list[Cut]:
    text, (start, end) = draft.text, every[place]
    if "#" in text[end:comma]:
        return [(start, end, ""), (comma, comma + 1, "")]
    rest = _REST.match(text, comma + 1)
    if rest is None:
        stop = comma + 1
        while text.startswith(" ", stop):
            stop += 1
        return [(start, stop, "")]
    if draft.has_own_line(start):
        return [(draft.line_start(start), draft.past_line(comma), "")]
    is_first = place == 0 and len(every) > 1 and not text[comma + 1 : every[1][0]].strip()
    if is_first:
        return [(start, every[1][0], "")]
    while text.startswith(" ", start - 1):
        start -= 1
    return [(start, comma + 1, "")]
