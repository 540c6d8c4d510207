"""Writes examples/dye-works.dxf, the drawing of an example job; a test holds them together.

A small drawing of release 12, which says no unit: the job file does.  Lengths in feet.
"""

from io import StringIO
from pathlib import Path

from ezdxf.addons.r12writer import R12FastStreamWriter

PLAN = Path(__file__).parents[1] / "examples/dye-works.dxf"
CURBS = ((14, 10, 6, 4, "RTU-1"), (38, 22, 5, 5, ""), (72, 8, 3, 3, "AH-3"))
VENTS = ((30, 8, 4), (50, 30, 3), (76, 18, 4))


def plan_text() -> str:
    """The drawing: a hall, and east of it a vat room with one round corner of 10'."""
    stream = StringIO()
    drawing = R12FastStreamWriter(stream)
    drawing.add_polyline([(0, 0), (60, 0), (60, 40), (0, 40)], layer="ROOF-HALL", closed=True)
    for start, end in (((60, 0), (90, 0)), ((90, 0), (90, 14)), ((80, 24), (60, 24)), ((60, 24), (60, 0))):
        drawing.add_line(start, end, layer="ROOF-VATS")
    drawing.add_arc((80, 14), radius=10, start=0, end=90, layer="ROOF-VATS")
    for x, y, wide, deep, name in CURBS:
        corners = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
        drawing.add_polyline(corners, layer="CURBS", closed=True)
        if name:
            drawing.add_text(name, (x + 1, y + 1), height=0.5, layer="CURBS")
    for x, y, inches in VENTS:
        drawing.add_circle((x, y), radius=inches / 24, layer="VENTS")
    drawing.close()
    return stream.getvalue()


if __name__ == "__main__":
    PLAN.write_text(plan_text(), encoding="ascii", newline="\n")
    print(PLAN.name)
