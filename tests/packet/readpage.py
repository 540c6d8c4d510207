"""A page of HTML read by the standard library's parser: what is opened is closed, tables come as texts."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

VOID = {"meta", "input", "br"}


@dataclass
class ReadTable:
    """A table: caption, head, rows of texts, each cell's tag and scope."""

    id: str
    caption: str = ""
    rows: list[list[str]] = field(default_factory=list)
    scopes: list[list[str]] = field(default_factory=list)


class ReadPage(HTMLParser):
    """The page; `wrong` says what is not well-formed."""

    def __init__(self, text: str) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.wrong: list[str] = []
        self.ids: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.tables: dict[str, ReadTable] = {}
        self.text: dict[str, str] = {}
        self.said = ""
        self.table: ReadTable | None = None
        self.feed(text)
        self.close()
        self.wrong += [f"{tag} never closed" for tag in self.open]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An element begins."""
        found = dict(attrs)
        self.tags.append((tag, found))
        if found.get("id"):
            self.ids.append(found["id"] or "")
        if len(found) != len(attrs):
            self.wrong.append(f"{tag} has an attribute twice")
        if tag not in VOID:
            self.open.append(tag)
        if tag == "table":
            self.table = ReadTable(found["id"] or "")
            self.tables[self.table.id] = self.table
        if tag == "tr" and self.table:
            self.table.rows.append([])
            self.table.scopes.append([])
        if tag in ("td", "th") and self.table:
            self.table.rows[-1].append("")
            self.table.scopes[-1].append(found.get("scope") or tag)

    def handle_endtag(self, tag: str) -> None:
        """An element ends: the one that was opened last."""
        if not self.open or self.open[-1] != tag:
            self.wrong.append(f"{tag} closed within {self.open[-1:]}")
            return
        self.open.pop()
        if tag == "table":
            self.table = None

    def handle_data(self, data: str) -> None:
        """Text of the innermost element."""
        inner = self.open[-1] if self.open else ""
        self.text[inner] = self.text.get(inner, "") + data
        if "script" not in self.open and "style" not in self.open:
            self.said += data
        if self.table and "caption" in self.open:
            self.table.caption += data
        elif self.table and self.table.rows and ("td" in self.open or "th" in self.open):
            self.table.rows[-1][-1] += data

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """Attributes of every element of a tag."""
        return [attributes for name, attributes in self.tags if name == tag]
