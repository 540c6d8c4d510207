"""A DXF drawing read no farther than an outline needs: its unit, its layers, the lines of one layer.

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
PARTS_OF_POLYLINE = ("VERTEX", "SEQEND")
BINARY = b"AutoCAD Binary DXF"
FIRST_UTF8 = "AC1021"
NOT_DXF = "a DXF drawing saved as text"


@dataclass(slots=True)
class Drawn:
    """One entity: its kind, its layer, its lines in the text (first, one past the last), whether on paper."""

    kind: str
    first: int
    last: int = 0
    layer: str = "0"
    is_on_paper: bool = False


@dataclass(slots=True)
class Drawing:
    """What a drawing says of itself.

    header: the variables read.  layers: names in file order, those of the layer table first.
    """

    lines: list[str]
    header: dict[str, str] = field(default_factory=dict)
    layers: dict[str, None] = field(default_factory=dict)
    entities: list[Drawn] = field(default_factory=list)

    @property
    def insunits(self) -> int | None:
        """The code of the drawing's unit; None where it is absent, 0 where it says "no unit"."""
        code = self.header.get("$INSUNITS", "")
        return int(code) if re.fullmatch("[0-9]{1,4}", code) else None

    def on_layer(self, layer: str) -> list[Drawn]:
        """The entities of model space on a layer; capitals and small letters name the same layer."""
        name = layer.casefold()
        return [each for each in self.entities if each.layer.casefold() == name and not each.is_on_paper]

    def part(self, entities: Iterable[Drawn]) -> str:
        """A drawing of the same version with these entities alone."""
        rows = ["0", "SECTION", "2", "HEADER"]
        if "$ACADVER" in self.header:
            rows += ["9", "$ACADVER", "1", self.header["$ACADVER"]]
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
    for each in drawing.entities:
        drawing.layers.setdefault(each.layer)
    return drawing


@dataclass(slots=True)
class _Scan:
    """Where in the drawing the scan stands: section, kind of row, header variable, entity."""

    drawing: Drawing
    section: str = ""
    kind: str = ""
    variable: str = ""
    entity: Drawn | None = None
    is_in_part: bool = False

    def take(self, place: int, code: int, value: str) -> None:
        """One pair."""
        if code == 0:
            self.start(place, value)
        elif self.section == "ENTITIES":
            self._note(code, value)
        elif self.kind == "SECTION" and code == 2:
            self.section, self.kind = value, ""
        elif self.section == "HEADER":
            self._head(code, value)
        elif self.section == "TABLES" and self.kind == "LAYER" and code == 2:
            self.drawing.layers.setdefault(value)

    def start(self, place: int, value: str) -> None:
        """A new row, entity or section starts; vertices belong to the polyline before them."""
        if self.entity is not None and self.entity.kind == "POLYLINE" and value in PARTS_OF_POLYLINE:
            self.is_in_part = True
            return
        if self.entity is not None:
            self.entity.last = place
        self.entity, self.is_in_part, self.kind = None, False, value
        if value in ("SECTION", "ENDSEC", "EOF"):
            self.section = ""
        elif self.section == "ENTITIES":
            self.entity = Drawn(value, place)
            self.drawing.entities.append(self.entity)

    def _note(self, code: int, value: str) -> None:
        if self.entity is None or self.is_in_part:
            return
        if code == 8:
            self.entity.layer = value
        elif code == 67:
            self.entity.is_on_paper = value == "1"

    def _head(self, code: int, value: str) -> None:
        if code == 9:
            self.variable = value
        elif self.variable in HEADS:
            self.drawing.header.setdefault(self.variable, value)
