"""Builds the tree from YAML events and tells what is wrong with its form.

Aliases never reach it (linescan tells them as traps), so nothing is ever multiplied; what is too long or too deep
stops the reading early, and the part read until then is judged all the same.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field
from types import MappingProxyType

from lapwright.faults import Fault
from lapwright.job import syntax
from lapwright.job.linescan import find_traps
from lapwright.job.pairs import grouped, is_nothing, lacking, unbroken, with_colon_apart
from lapwright.job.trap import DEEPEST, TAB_NEEDS, Trap, told
from lapwright.job.tree import EMPTY, Node, Pair, Path, Places, Row, Table, Text, places, written

LONGEST_OUTLINE = 5_000
LONGEST_LIST = 1_000
MOST_FAULTS = 500
MOST_EVENTS = 40_000


@dataclass(frozen=True, slots=True)
class Reading:
    """What was made of a text: the tree, its places, the faults so far.

    cut_at: offset from which the file could not be read; None where it was read whole.
    """

    root: Node
    places: Places
    faults: tuple[Fault, ...]
    cut_at: int | None


@dataclass(slots=True)
class _Open:
    """A table or list that is still being read."""

    path: Path
    start: int
    is_table: bool
    is_flow: bool
    is_key: bool = False
    key: Text | None = None
    pairs: list[Pair] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)

    def next_path(self) -> Path:
        """The path of what comes next in it."""
        if not self.is_table:
            return (*self.path, len(self.items))
        return (*self.path, self.key.value) if self.key is not None else self.path


def compose(text: str, *, file: str) -> Reading:
    """The tree of a job file and every fault of its form.

    Holds for: texts within the size that reading.py allows.
    """
    blanked, traps = find_traps(text)
    builder = _Builder(text, traps, file=file)
    cut_at = builder.feed(syntax.events(blanked))
    root = builder.finish()
    for trap in traps:
        builder.tell(builder.path_at(trap.at), trap.at, read=trap.read, needs=trap.needs, write=trap.write)
    if cut_at is None and len(blanked) < len(text):
        cut_at = len(blanked)
    return Reading(root, builder.places, tuple(builder.faults), cut_at)


class _Builder:
    """Takes events one by one; keeps the tables and lists that are open on a stack."""

    def __init__(self, text: str, traps: tuple[Trap, ...], *, file: str) -> None:
        self.text, self.file = text, file
        self.places = places(text)
        self.faults: list[Fault] = []
        self._trap_lines = {self.places.of(trap.at)[0]: trap.at for trap in traps}
        self._has_tab = any(trap.needs == TAB_NEEDS for trap in traps)
        self._spoilt = [trap.at for trap in traps if trap.is_spoilt]
        self._stack: list[_Open] = []
        self._root: Node | None = None
        self._offsets: list[int] = []
        self._paths: list[Path] = []

    def feed(self, events: Iterable[syntax.Event | syntax.Stop]) -> int | None:
        """Takes events until they end, or until something stops them: then the offset from which all is unread."""
        for count, event in enumerate(events):
            if isinstance(event, syntax.Stop):
                return self._stopped(event)
            if event.kind == "scalar":
                self._add(self._text(event))
            elif event.kind == "end":
                self._close(event.end)
            else:
                self._open(event)
            stop = self._too_much(event, count)
            if stop is not None:
                return stop
        return None

    def finish(self) -> Node:
        """The tree; what is still open is closed as cut."""
        while self._stack:
            self._close(len(self.text), is_cut=True)
        return self._root if self._root is not None else Table(EMPTY, 0, 0, is_cut=True)

    def tell(self, path: Path, offset: int, *, read: str, needs: str, write: str) -> None:
        """Keeps one fault; past the first hundreds nobody reads on."""
        if len(self.faults) < MOST_FAULTS:
            line, column = self.places.of(offset)
            self.faults.append(Fault(self.file, line, column, written(path), told(read), needs, told(write)))

    def path_at(self, offset: int) -> Path:
        """The path of the last key or value that begins at or before an offset, on its line."""
        place = bisect_right(self._offsets, offset) - 1
        if place < 0 or self._offsets[place] < self.places.line_start(offset):
            return ()
        return self._paths[place]

    def _seen(self, offset: int, path: Path) -> None:
        self._offsets.append(offset)
        self._paths.append(path)

    def _stopped(self, stop: syntax.Stop) -> int:
        line, _ = self.places.of(stop.at)
        follows = self._has_tab or line in self._trap_lines or line - 1 in self._trap_lines
        if not follows:  # a trap is told, what comes of it is not
            self.tell(self.path_at(stop.at), stop.at, read=stop.read, needs=stop.needs, write=stop.write)
        return self.places.line_start(stop.since)

    def _too_much(self, event: syntax.Event, count: int) -> int | None:
        top = self._stack[-1] if self._stack else None
        if top is not None and len(top.items) > LONGEST_LIST and self._is_too_long(top):
            return top.start
        if top is not None and len(self._stack) > DEEPEST + 1:
            self.tell(top.path, top.start, read="", needs=f"keys at most {DEEPEST} deep", write="")
            return top.start
        if count > MOST_EVENTS:
            needs = f"a job file of at most {MOST_EVENTS // 2:,} values; long outlines come from drawings"
            self.tell((), event.start, read="", needs=needs, write="")
            return event.start
        return None

    def _is_too_long(self, top: _Open) -> bool:
        if top.path[-1:] != ("outline",):
            self.tell(top.path, top.start, read="", needs=f"a list of at most {LONGEST_LIST:,} items", write="")
            return True
        if len(top.items) <= LONGEST_OUTLINE:
            return False
        needs = f"an outline of at most {LONGEST_OUTLINE:,} points; a longer one comes from a drawing"
        self.tell(top.path, top.start, read="", needs=needs, write="{dxf: roof.dxf, layer: ROOF-MAIN}")
        return True

    def _text(self, event: syntax.Event) -> Text:
        place = bisect_left(self._spoilt, event.start)
        is_spoilt = place < len(self._spoilt) and self._spoilt[place] <= event.end
        typed = self.text[event.start : event.end]
        return Text(event.value, event.start, event.end, typed, event.is_quoted, is_spoilt)

    def _open(self, event: syntax.Event) -> None:
        top = self._stack[-1] if self._stack else None
        is_key = top is not None and top.is_table and top.key is None
        path = top.next_path() if top is not None else ()
        if is_key:
            read = self.text[event.start : event.start + 40].split("\n")[0]
            self.tell(path, event.start, read=read, needs="a key typed as one word", write="")
        self._seen(event.start, path)
        self._stack.append(_Open(path, event.start, event.kind == "table", event.is_flow, is_key))

    def _add(self, node: Node) -> None:
        if not self._stack:
            self._root = node
            return
        top = self._stack[-1]
        if isinstance(node, Text):
            is_key = top.is_table and top.key is None
            self._seen(node.start, (*top.path, node.value) if is_key else top.next_path())
        if not top.is_table:
            top.items.append(node)
        elif top.key is not None:
            top.pairs.append(Pair(top.key, node))
            top.key = None
        elif isinstance(node, Text):
            top.key = node

    def _close(self, end: int, *, is_cut: bool = False) -> None:
        top = self._stack.pop()
        if top.is_key:
            self._add(Text("", top.start, end, "", is_spoilt=True))
        elif top.is_table:
            self._add(self._table(top, end, is_cut=is_cut))
        else:
            items = tuple(self._filled(item, (*top.path, place)) for place, item in enumerate(top.items))
            self._add(Row(items, top.start, end, is_cut, top.is_flow))

    def _table(self, top: _Open, end: int, *, is_cut: bool) -> Table:
        kept: dict[str, Pair] = {}
        pairs = grouped(map(with_colon_apart, top.pairs)) if top.is_flow else [(pair, []) for pair in top.pairs]
        for pair, tails in pairs:
            name, path = pair.key.value, (*top.path, pair.key.value)
            if name in kept:
                line, _ = self.places.of(kept[name].key.start)
                needs = f"each key once; {name} stands on line {line} already"
                self.tell(path, pair.key.start, read=pair.key.typed, needs=needs, write="")
            elif name == "<<":
                if not pair.value.is_spoilt:
                    needs = "the keys typed out; a merge (<<) is not followed"
                    self.tell(path, pair.key.start, read="<<", needs=needs, write="")
            else:
                value = self._joined(pair, tails, path) if tails else self._filled(pair.value, path, pair.key)
                kept[name] = Pair(pair.key, value)
        return Table(MappingProxyType(kept), top.start, end, is_cut, top.is_flow)

    def _filled(self, node: Node, path: Path, key: Text | None = None) -> Node:
        """The node itself; where nothing was typed, it is told and spoilt."""
        if not is_nothing(node):
            return node
        at = key.start if key is not None else node.start - 1  # the dash
        line, _ = self.places.of(at)
        if self._trap_lines.get(line, -1) < at:
            read = key.typed if key is not None else "-"
            needs, write = lacking(read) if key is not None else ("a value behind the dash", "")
            self.tell(path, at, read=read, needs=needs, write=write)
        behind = node.start if key is None else self._behind(key)  # the parser's own place is that of the next token
        return Text("", behind, behind, "", is_spoilt=True)

    def _behind(self, key: Text) -> int:
        """Offset behind a key and its colon, if it has one."""
        colon = key.end
        while self.text.startswith(" ", colon):
            colon += 1
        return colon + 1 if self.text.startswith(":", colon) else key.end

    def _joined(self, pair: Pair, tails: list[Text], path: Path) -> Text:
        """A value with the pieces that commas in braces cut off; it is told."""
        start, end = pair.value.start, tails[-1].end
        read = " ".join(self.text[start:end].split())
        first = pair.value.value if isinstance(pair.value, Text) else ""
        needs, write = unbroken(pair.key.value, read, [first, *(tail.value for tail in tails)])
        if not pair.value.is_spoilt:
            self.tell(path, start, read=read, needs=needs, write=write)
        return Text(read, start, end, read, is_spoilt=True)
