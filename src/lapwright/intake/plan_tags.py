"""A DXF drawing read no farther than a plan needs: its unit, its layers, what is drawn on some of them, its blocks.

DXF text is pairs of lines, a group code and a value.  A drawing of a whole building holds a thousand times what
one outline is; picking the pairs of one layer first leaves ezdxf a small drawing to read, within seconds.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

from lapwright.intake.plan_scale import refusal

HEADS = ("$INSUNITS", "$ACADVER")
CODES = {str(code): code for code in range(-5, 1072)}
PARTS = {"POLYLINE": ("VERTEX", "SEQEND"), "INSERT": ("ATTRIB", "SEQEND")}
BINARY = b"AutoCAD Binary DXF"
FROZEN = 1
FIRST_UTF8 = "AC1021"
NOT_DXF = "a DXF drawing saved as text"


@dataclass(slots=True)
class Drawn:
    """One entity: its kind, its lines in the text (first, one past the last), its layer and handle.

    name: of the block that an INSERT places.
    """

    kind: str
    first: int
    last: int = 0
    layer: str = "0"
    handle: str = ""
    name: str = ""
    is_on_paper: bool = False
    is_hidden: bool = False


@dataclass(slots=True)
class Block:
    """A block: its head as an entity, and what it holds."""

    head: Drawn
    entities: list[Drawn] = field(default_factory=list)


@dataclass(slots=True)
class Drawing:
    """What a drawing says of itself.

    header: the variables read.  layers: names in file order, those of the layer table first, each with what hides
    it (`frozen`, `off`) or nothing.  blocks: by name in small letters.
    """

    lines: list[str]
    header: dict[str, str] = field(default_factory=dict)
    layers: dict[str, str] = field(default_factory=dict)
    entities: list[Drawn] = field(default_factory=list)
    blocks: dict[str, Block] = field(default_factory=dict)

    @property
    def insunits(self) -> int | None:
        """The code of the drawing's unit; None where it is absent, 0 where it says "no unit"."""
        code = self.header.get("$INSUNITS", "")
        return int(code) if re.fullmatch("[0-9]{1,4}", code) else None

    def has_layer(self, layer: str) -> bool:
        """The drawing names the layer; capitals and small letters name the same one."""
        return layer.casefold() in {name.casefold() for name in self.layers}

    def hidden_by(self, layer: str) -> str:
        """`frozen` or `off` where the layer is not shown, else nothing."""
        return next((how for name, how in self.layers.items() if name.casefold() == layer.casefold()), "")

    def part(self, entities: Iterable[Drawn], blocks: Iterable[tuple[Block, Iterable[Drawn]]] = ()) -> str:
        """A drawing of the same version with these entities, and these blocks with some of theirs."""
        rows = ["0", "SECTION", "2", "HEADER"]
        if "$ACADVER" in self.header:
            rows += ["9", "$ACADVER", "1", self.header["$ACADVER"]]
        rows += ["0", "ENDSEC", "0", "SECTION", "2", "BLOCKS"]
        for block, kept in blocks:
            rows += self.lines[block.head.first : block.head.last]
            for each in kept:
                rows += self.lines[each.first : each.last]
            rows += ["0", "ENDBLK", "8", "0"]
        rows += ["0", "ENDSEC", "0", "SECTION", "2", "ENTITIES"]
        for each in entities:
            rows += self.lines[each.first : each.last]
        return "\n".join([*rows, "0", "ENDSEC", "0", "EOF", ""])


def decoded(content: bytes | str, *, file: str) -> str:
    """The drawing's text, in the code page that it names.

    Raises: Refused for a binary drawing.
    """
    if isinstance(content, str):
        return content
    if content.startswith(BINARY):
        raise refusal(file, "", "a binary drawing", NOT_DXF, "the drawing saved once more, as text (ASCII) DXF")
    head = content[:65_536].decode("ascii", errors="replace")
    version = re.search(r"\$ACADVER\s+1\s+(AC[0-9]{4})", head)
    page = re.search(r"\$DWGCODEPAGE\s+3\s+ANSI_(87[0-9]|9[0-9]{2}|125[0-8])\b", head)
    if version is not None and version[1] < FIRST_UTF8 and page is not None:
        try:
            return content.decode(f"cp{page[1]}", errors="replace")
        except LookupError:  # a page that Python does not have: only names of layers can suffer
            return content.decode("cp1252", errors="replace")
    return content.decode("utf-8-sig", errors="replace")


def scanned(text: str, *, file: str) -> Drawing:
    """The drawing's unit, layers and entities.

    Raises: Refused, with the line, where the pairs break off; and for a text without entities.
    """
    text = text.replace("\r\n", "\n")
    lines = (text if "\n" in text else text.replace("\r", "\n")).split("\n")
    scan = _Scan(Drawing(lines))
    for place in range(0, len(lines) - 1, 2):
        code = CODES.get(lines[place].strip())
        if code is None:
            needs = f"{NOT_DXF}, with a group code on this line"
            raise refusal(file, "", lines[place].strip(), needs, "", at=(place + 1, 1))
        scan.take(place, code, lines[place + 1].strip())
    scan.start(len(lines) // 2 * 2, "EOF")
    drawing = scan.drawing
    if not drawing.entities:
        raise refusal(file, "", "nothing drawn", NOT_DXF, "a drawing that holds the roof's outline")
    for each in drawing.entities + [inner for block in drawing.blocks.values() for inner in block.entities]:
        drawing.layers.setdefault(each.layer, "")
    return drawing


@dataclass(slots=True)
class _Scan:
    """Where in the drawing the scan stands: section, kind of row, header variable, entity."""

    drawing: Drawing
    section: str = ""
    kind: str = ""
    variable: str = ""
    layer: str = ""
    entity: Drawn | None = None
    block: Block | None = None
    is_in_part: bool = False

    def take(self, place: int, code: int, value: str) -> None:
        """One pair."""
        if code == 0:
            self.start(place, value)
        elif self.entity is not None:
            self._note(code, value)
        elif self.kind == "SECTION" and code == 2:
            self.section, self.kind = value, ""
        elif self.section == "HEADER":
            self._head(code, value)
        elif self.section == "TABLES" and self.kind == "LAYER":
            self._layer(code, value)

    def start(self, place: int, value: str) -> None:
        """A new row, entity, block or section starts; vertices belong to the polyline before them."""
        if self.entity is not None and value in PARTS.get(self.entity.kind, ()):
            self.is_in_part = True
            return
        if self.entity is not None:
            self.entity.last = place
        self.entity, self.is_in_part, self.kind = None, False, value
        if value in ("SECTION", "ENDSEC", "EOF"):
            self.section, self.block = "", None
        elif self.section == "BLOCKS" and value == "ENDBLK":
            self.block = None
        elif self.section in ("ENTITIES", "BLOCKS"):
            self._begin(Drawn(value, place))

    def _begin(self, entity: Drawn) -> None:
        self.entity = entity
        if self.section == "ENTITIES":
            self.drawing.entities.append(entity)
        elif entity.kind == "BLOCK":
            self.block = Block(entity)
        elif self.block is not None:
            self.block.entities.append(entity)

    def _note(self, code: int, value: str) -> None:
        if self.entity is None or self.is_in_part:
            return
        if code == 8:
            self.entity.layer = value
        elif code == 5:
            self.entity.handle = value[:16]
        elif code == 67:
            self.entity.is_on_paper = value == "1"
        elif code == 60:
            self.entity.is_hidden = value == "1"
        elif code == 2 and self.entity.kind in ("INSERT", "BLOCK"):
            self.entity.name = value
            if self.block is not None and self.entity is self.block.head:
                self.drawing.blocks.setdefault(value.casefold(), self.block)

    def _layer(self, code: int, value: str) -> None:
        if code == 2:
            self.layer = value
            self.drawing.layers.setdefault(value, "")
        elif code == 70 and value.isdecimal() and int(value[:9]) & FROZEN:
            self.drawing.layers[self.layer] = "frozen"
        elif code == 62 and value.startswith("-"):
            self.drawing.layers[self.layer] = self.drawing.layers.get(self.layer) or "off"

    def _head(self, code: int, value: str) -> None:
        if code == 9:
            self.variable = value
        elif self.variable in HEADS:
            self.drawing.header.setdefault(self.variable, value)
