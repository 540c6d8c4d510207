"""What is written on a plate, read back from its items."""

from __future__ import annotations

import re

import pytest
from shapely import Polygon, STRtree, box

from lapwright.packet.drawing import Plate, Text
from lapwright.packet.lettering import clean, text_width
from lapwright.packet.sheets.labels import label_box


def text_polygon(item: Text) -> Polygon:
    """The ground that a text covers, without air."""
    width = text_width(clean(item.text), item.height, narrow=item.narrow)
    air = item.height * 0.22
    whole = Polygon(label_box(item))
    assert whole.area == pytest.approx((width + 2 * air) * (item.height + 2 * air))
    return whole.buffer(-air * 1.01, join_style="mitre")


def overlapping(plate: Plate) -> list[tuple[str, str]]:
    """Pairs of texts that lie on each other, and texts that hang over the sheet's border (paired with `border`)."""
    texts = [item for item in plate.items if isinstance(item, Text)]
    grounds = [text_polygon(item) for item in texts]
    tree = STRtree(grounds)
    pairs = [(i, int(j)) for i, ground in enumerate(grounds) for j in tree.query(ground, predicate="overlaps") if i < j]
    sheet = box(-0.1, -0.1, plate.width + 0.1, plate.height + 0.1)
    over = [(texts[i].text, "border") for i, ground in enumerate(grounds) if not sheet.contains(ground)]
    return [(texts[i].text, texts[j].text) for i, j in pairs] + over


def listed(plate: Plate) -> str:
    """The words of the list of what found no room on the drawing, as one line."""
    lines = [item.text for item in plate.items if isinstance(item, Text) and item.layer == "SHEET"]
    found = re.search(r"No room on the drawing for: (.*?)\.( |$)", " ".join(lines))
    return found[1] if found else ""


def numbers_told(plate: Plate) -> set[int]:
    """Pieces by laying number that the plate tells of: on the drawing, in a run of numbers, or in the list."""
    runs = r"\d+(?: to \d+)?(?:, \d+(?: to \d+)?)*"
    texts = [item.text for item in plate.items if isinstance(item, Text) and item.layer == "TEXT"]
    told = [text for text in texts if re.fullmatch(runs, text)]
    told += re.findall(rf"C\d+ ({runs})", listed(plate))
    ends = [match for text in told for match in re.findall(r"(\d+)(?: to (\d+))?", text)]
    return {number for first, last in ends for number in range(int(first), int(last or first) + 1)}
