"""The typesetter: a stretch of the packet as PDF.

Texts go to the templates as data, never as markup; drawings go as SVG.  Nothing is written to disk and no font of the
machine is used.  What sets a part of a large packet is started for each of them, so that little is loaded here.
"""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import resources
from typing import Any

from lapwright.packet.pages.words import Json, soft
from lapwright.packet.parts import Bound, Part


def set_whole(part: Part) -> bytes:
    """A packet that is set in one."""
    with compiler(part) as made:
        return bytes(made.compile(format="pdf", timestamp=timestamp(part.data), pdf_tags=False))


def set_part(part: Part) -> Bound:
    """One part of a large packet."""
    with compiler(part) as made:
        pdf = bytes(made.compile(format="pdf", timestamp=timestamp(part.data), pdf_tags=False, pdf_standards="1.4"))
        listed = json.loads(made.query("<listed>", field="value"))
    return Bound(pdf, tuple((title, page) for title, page in listed))


@contextmanager
def compiler(part: Part) -> Iterator[Any]:
    """The typesetter with a part's data, our templates and our fonts."""
    import typst  # takes its time to load, and only the packet needs it

    inputs = {"data": json.dumps(soft(part.data), ensure_ascii=False), **part.drawings}
    with (
        resources.as_file(resources.files("lapwright.packet") / "templates") as templates,
        resources.as_file(resources.files("lapwright.packet") / "fonts") as fonts,
    ):
        yield typst.Compiler(
            str(templates / part.template),
            root=str(templates),
            font_paths=[str(fonts)],
            ignore_system_fonts=True,
            sys_inputs=inputs,
        )


def timestamp(data: Json) -> dt.datetime:
    """The job's date at midnight."""
    year, month, day = data["page"]["date"]
    return dt.datetime(year, month, day, tzinfo=dt.UTC)
