"""Walks a job file token by token, line by line, and finds the traps before YAML is read.

The text handed back has each trap *blanked* by as many harmless characters: every place stays where it was, and
the rest of the file is judged as well.  The walk knows just enough YAML for that; it never decides what a file means.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

from lapwright.job import trap as t
from lapwright.job.trap import Trap

MOST_TRAPS = 200

# Values of these keys are kept as typed, so that a lone ` #` may well belong to them.
FREE_TEXT = frozenset({"name", "number", "revision", "area", "sheet", "layer", "feature", "file", "dxf", "geojson"})

_LINE = re.compile(r"([^\r\n]*)(?:\r\n|\r|\n|$)")
_SPACES = re.compile(r" +")
_TABS = re.compile(r"\t[ \t]*")
_CONTROL = re.compile("[^\t\n\r\x20-\x7e\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
# The lookbehind tries a run of spaces once, at its start: else a line of nothing but spaces takes hours.
_END_BLOCK = re.compile(r":(?=[ \t]|$)|(?<! ) +#|\t|$")
_END_FLOW = re.compile(r":(?=[ \t]|$)|(?<! ) +#|[,\[\]{}]|\t|$")
_END_VALUE = re.compile(r"(?<! ) +#|$")
_END_VALUE_FLOW = re.compile(r"(?<! ) +#|[,\]}]|$")
_END_KEY = re.compile(r": |(?<! ) +#|$")
_GLUED = re.compile(r"[^\s#=*-]")
_QUOTED = {'"': re.compile(r'"(?:[^"\\]|\\["\\/])*"'), "'": re.compile(r"'(?:[^']|'')*'")}
_ESCAPED = re.compile(r'"(?:[^"\\]|\\.)*\\(?:[^"\\]|\\.)*"')
_AFTER_QUOTED = re.compile(r" *(?: #|\t|$|:(?=[ \t]|$))| *[,\]}:]")
_MARK = re.compile(r"[&!*][^ \t,\[\]{}]*")
_BLOCK_HEAD = re.compile(r"[|>][-+0-9]{0,2}(?=[ \t]*(?: #|$))")


def find_traps(text: str) -> tuple[str, tuple[Trap, ...]]:
    """The text with its traps blanked (same length, same lines), and the traps in file order."""
    clean, controls = _without_controls(text)
    scan = _Scan(clean)
    for start, end in _lines(clean):
        if start < end:
            scan.line(start, end)
        if scan.is_done:
            break
    traps = sorted([*controls, *scan.traps], key=lambda trap: trap.at)
    return scan.blanked(), tuple(traps)


def _lines(text: str) -> Iterator[tuple[int, int]]:
    return (found.span(1) for found in _LINE.finditer(text))


def _without_controls(text: str) -> tuple[str, list[Trap]]:
    traps: list[Trap] = []

    def blank(found: re.Match[str]) -> str:
        if found.start() == 0 and found[0] == "\ufeff":
            return found[0]
        if len(traps) < MOST_TRAPS:
            traps.append(Trap(found.start(), f"U+{ord(found[0]):04X}", "text without control characters", ""))
        return "x"

    return _CONTROL.sub(blank, text), traps


class _Scan:
    """The walk.  `line` is given each line in turn; traps and patches gather as it goes."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.traps: list[Trap] = []
        self.is_done = False
        self._patches: list[tuple[int, int, str]] = []
        self._depth = 0
        self._key = ""
        self._is_value = False
        self._last = "start"
        self._plain = (0, 0)
        self._line_start = 0
        self._block_indent: int | None = None
        self._has_document = False
        self._cut: int | None = None
        self._handlers: dict[str, Callable[[int, int], int]] = {
            "#": self._comment, '"': self._quoted, "'": self._quoted, "{": self._open, "[": self._open,
            "}": self._close, "]": self._close, ",": self._comma, "-": self._dash, "?": self._question,
            ":": self._colon, "&": self._mark, "!": self._mark, "*": self._alias, "|": self._block,
            ">": self._block, "%": self._odd, "@": self._odd, "`": self._odd, "\t": self._tab, " ": self._spaces,
        }  # fmt: skip

    def line(self, start: int, end: int) -> None:
        """Looks at one line."""
        self._line_start = start
        if self._is_block_text(start, end):
            return
        if self._depth == 0:
            if self._is_directive(start, end) or self._is_second_document(start, end):
                return
            self._key, self._is_value = "", False
        self._last = "start"
        position = start
        while position < end and not self.is_done:
            handler = self._handlers.get(self.text[position], self._plain_text)
            position = handler(position, end)
            if len(self.traps) >= MOST_TRAPS:  # what follows might hold more of them, so it is not read
                self._cut, self.is_done = start, True

    def blanked(self) -> str:
        """The text with every patch put in."""
        pieces, position = [], 0
        for start, end, fill in sorted(self._patches):
            if start >= position:
                pieces += [self.text[position:start], fill * (end - start)]
                position = end
        pieces.append(self.text[position:])
        return "".join(pieces)[: self._cut]

    def _told(self, trap: Trap, stop: int, fill: str) -> int:
        """Keeps a trap and blanks it up to `stop`, where the walk goes on."""
        self.traps.append(trap)
        self._patches.append((trap.at, stop, fill))
        self._last = "told"
        return stop

    def _is_block_text(self, start: int, end: int) -> bool:
        if self._block_indent is None:
            return False
        line = self.text[start:end]
        indent = len(line) - len(line.lstrip(" "))
        if indent == len(line) or indent > self._block_indent:
            self._patches.append((start, end, " "))
            return True
        self._block_indent = None
        return False

    def _is_directive(self, start: int, end: int) -> bool:
        if not self.text.startswith("%", start, end):
            return False
        needs = "a key at the start of the line; % is YAML's own there"
        self._told(Trap(start, self.text[start:end].strip(), needs, "", False), end, " ")
        return True

    def _is_second_document(self, start: int, end: int) -> bool:
        line = self.text[start:end].strip()
        head = self.text[start : min(end, start + 4)].rstrip(" \t")
        if head not in ("---", "..."):
            self._has_document = self._has_document or (line != "" and line[0] != "#")
            return False
        if head == "---" and not self._has_document:
            self._has_document = True
            return line == "---"
        if head == "---" or self.text[end:].strip():
            needs = "one job in a file; the rest goes into a file of its own"
            self.traps.append(Trap(start, line, needs, "", False))
        self._cut, self.is_done = start, True
        return True

    def _spaces(self, start: int, end: int) -> int:
        found = _SPACES.match(self.text, start, end)
        return found.end() if found else start + 1

    def _plain_text(self, start: int, end: int) -> int:
        pattern = _END_FLOW if self._depth else _END_BLOCK
        found = pattern.search(self.text, start + 1, end)
        stop = found.start() if found else end
        if found and found[0] == ":":
            self._key = self.text[start:stop]
        self._last, self._plain = "plain", (start, start + len(self.text[start:stop].rstrip(" ")))
        return stop

    def _comment(self, start: int, end: int) -> int:
        is_glued = _GLUED.match(self.text, start + 1, end) is not None
        first = start
        if self._last == "plain":
            first, stop = self._plain
            is_trap = is_glued or (start - stop == 1 and self._key in FREE_TEXT)
        else:
            is_trap = is_glued and self._last in ("colon", "dash")
        if not is_trap:
            return end
        self.traps.append(self._cut_short(first, start, end))
        self._patches.append((start, start + 1, "x"))
        return self._plain_text(start, end)

    def _cut_short(self, first: int, mark: int, end: int) -> Trap:
        pattern = _END_VALUE_FLOW if self._depth else _END_VALUE
        found = pattern.search(self.text, mark + 1, end)
        read = self.text[first : found.start() if found else end].strip()
        value, note = self.text[first:mark].strip(), self.text[mark + 1 : min(end, mark + t.LONGEST_TOLD)].strip()
        return t.cut_short(first, read, comment=f"{value}  # {note}" if value and not self._depth else "")

    def _quoted(self, start: int, end: int) -> int:
        found = _QUOTED[self.text[start]].match(self.text, start, end)
        if found is None or _AFTER_QUOTED.match(self.text, found.end(), end) is None:
            is_closed = found is not None and found.end() <= self._value_end(start, end)
            return self._broken_quote(start, end, is_closed=is_closed)
        if "\t" in found[0]:
            self._tab(start + found[0].index("\t"), end)
        if self.text.startswith(":", found.end(), end):
            self._key = found[0][1:-1]
        self._last = "quoted"
        return found.end()

    def _broken_quote(self, start: int, end: int, *, is_closed: bool) -> int:
        escaped = None if is_closed else _ESCAPED.match(self.text, start, end)
        stop = escaped.end() if escaped else self._value_end(start, end)
        read = self.text[start:stop]
        return self._told(t.broken_quote(start, read, is_closed=is_closed, has_escape=escaped is not None), stop, "x")

    def _value_end(self, start: int, end: int) -> int:
        in_block = _END_VALUE if self._is_value else _END_KEY
        pattern = _END_VALUE_FLOW if self._depth else in_block
        found = pattern.search(self.text, start + 1, end)
        stop = found.start() if found else end
        return start + len(self.text[start:stop].rstrip(" \t"))

    def _open(self, start: int, end: int) -> int:
        self._depth += 1
        if self._depth > t.DEEPEST:
            read = self.text[start : min(end, start + 40)]
            self.traps.append(Trap(start, read, f"brackets at most {t.DEEPEST} deep", "", False))
            self._cut, self.is_done = start, True
        self._key, self._is_value, self._last = "", False, "open"
        return start + 1

    def _close(self, start: int, end: int) -> int:
        if not self._depth:
            return self._plain_text(start, end)
        self._depth -= 1
        self._is_value, self._last = True, "close"
        return start + 1

    def _comma(self, start: int, end: int) -> int:
        if not self._depth:
            return self._plain_text(start, end)
        self._key, self._is_value, self._last = "", False, "comma"
        return start + 1

    def _dash(self, start: int, end: int) -> int:
        if self._depth or not (start + 1 >= end or self.text[start + 1] in " \t"):
            return self._plain_text(start, end)
        self._key, self._is_value, self._last = "", False, "dash"
        return start + 1

    def _question(self, start: int, end: int) -> int:
        if start + 1 < end and self.text[start + 1] not in " \t":
            return self._plain_text(start, end)
        trap = Trap(start, self.text[start:end].strip(), "a key typed as one word", "", False)
        return self._told(trap, start + 1, " ")

    def _colon(self, start: int, end: int) -> int:
        is_mark = start + 1 >= end or self.text[start + 1] in " \t"
        if not is_mark and not (self._depth and self._last == "quoted"):
            return self._plain_text(start, end)
        self._is_value, self._last = True, "colon"
        return start + 1

    def _mark(self, start: int, end: int) -> int:
        found = _MARK.match(self.text, start, end)
        stop = found.end() if found else start + 1
        rest = self.text[stop : self._value_end(start, min(end, stop + t.LONGEST_TOLD))].strip()
        return self._told(t.anchor_or_tag(start, self.text[start:stop], rest), stop, " ")

    def _alias(self, start: int, end: int) -> int:
        found = _MARK.match(self.text, start, end)
        stop = found.end() if found else start + 1
        needs = "the value typed out; an alias (*) is not followed"
        return self._told(Trap(start, self.text[start:stop], needs, ""), stop, "x")

    def _block(self, start: int, end: int) -> int:
        found = None if self._depth else _BLOCK_HEAD.match(self.text, start, end)
        if found is None:
            return self._odd(start, end)
        head = _SPACES.match(self.text, self._line_start, end)
        self._block_indent = head.end() - self._line_start if head else 0
        return self._told(Trap(start, found[0], "the text on the line of its key", ""), found.end(), "x")

    def _odd(self, start: int, end: int) -> int:
        stop = self._value_end(start, end)
        return self._told(t.odd_start(start, self.text[start:stop]), stop, "x")

    def _tab(self, start: int, end: int) -> int:
        found = _TABS.match(self.text, start, end)
        stop = found.end() if found else start + 1
        self._patches.append((start, stop, " "))
        is_told = any(trap.needs == t.TAB_NEEDS and trap.at >= self._line_start for trap in self.traps[-3:])
        if not is_told:
            read = self.text[self._line_start : end].rstrip().replace("\t", "→")
            self.traps.append(Trap(start, read, t.TAB_NEEDS, "", False))
        return stop
