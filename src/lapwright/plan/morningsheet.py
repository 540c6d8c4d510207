"""The morning sheet as asked for at the door: texts read, the sheet made, shown or written."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

from lapwright.faults import Fault, Mended, Refused
from lapwright.packet.morningvalues import MorningPaper
from lapwright.plan.figures.weld import OPTIONS
from lapwright.plan.morning import ProvedWeld, morning_paper
from lapwright.plan.morningweather import Source
from lapwright.units import read
from lapwright.units.unread import Unread

FILE = "morning.pdf"
PROVED = ("proved-speed", "proved-sheet", "nozzle")
T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked, as typed.

    weld: speed, sheet, nozzle of the test weld.  now: the time, UTC; base: another address of the service.
    """

    forecast: str | None = None
    day: str | None = None
    save: Path | None = None
    weld: tuple[str | None, ...] = (None, None, None)
    now: dt.datetime | None = None
    base: str | None = None
    pause: Callable[[float], None] | None = None


@dataclass(frozen=True, slots=True)
class MorningMade:
    """A morning sheet, and what was mended on the way in."""

    paper: MorningPaper
    mended: tuple[Mended, ...] = field(default=())

    def lines(self) -> list[str]:
        """The sheet for a terminal."""
        from lapwright.packet.morningtext import morning_text
        from lapwright.packet.pages.morning import morning_page

        return morning_text(morning_page(self.paper))

    def write(self, out: Path) -> Path:
        """Write the sheet as a PDF: to a file, or as morning.pdf into a folder.

        Raises: Refused where it can't be written; an earlier sheet is then left as it was.
        """
        from lapwright.packet.morningpdf import morning_pdf  # the typesetter is heavy

        path = out if out.suffix.lower() == ".pdf" else out / FILE
        if out != path and out.exists() and not out.is_dir():
            raise Refused([_out_fault(out, "a file that is no PDF", "a folder, or a file ending in .pdf")])
        _must_be_free(path)
        content = morning_pdf(self.paper)
        part = path.with_name(f".{path.name}.part")
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            part.write_bytes(content)
            part.replace(path)
        except OSError as error:
            with contextlib.suppress(OSError):
                part.unlink(missing_ok=True)
            said = (error.strerror or "can't be written").lower()
            raise Refused([_out_fault(path, said, "a file or folder that can be written")]) from error
        return path


def _out_fault(path: Path, read: str, needs: str) -> Fault:
    return Fault(str(path), 0, 0, "--out", read, needs, "--out morning.pdf")


def _must_be_free(path: Path) -> None:
    """A name that is free or a PDF's: another file is somebody's own."""
    try:
        with path.open("rb") as stream:
            is_pdf = stream.read(5) == b"%PDF-"
    except FileNotFoundError:
        return
    except OSError:
        return  # told when it is written
    if not is_pdf:
        needs = "a name that is free, or an earlier sheet's"
        raise Refused([Fault(str(path), 0, 0, "--out", "a file that is no PDF", needs, "--out with another name")])


def make_morning(job: Path, asked: Asked) -> MorningMade:
    """The morning sheet of a job.

    Raises: Refused with every option that can't be read, then with every fault of the job file or the weather.
    """
    faults: list[Fault] = []
    day = _read("--day", asked.day, read.date, faults)
    weld = _weld(asked.weld, faults)
    if asked.save is not None and asked.forecast != "nws":
        faults.append(
            Fault(
                "",
                0,
                0,
                "--save",
                str(asked.save),
                "a forecast asked of the service",
                "--forecast nws --save FILE.json",
            )
        )
    if faults:
        raise Refused(faults)
    source = Source(asked.forecast, asked.save, day, asked.now, asked.base, asked.pause)
    paper, mended = morning_paper(job, source, weld)
    return MorningMade(paper, mended)


def _weld(texts: tuple[str | None, ...], faults: list[Fault]) -> ProvedWeld:
    """The morning's test weld, within the bounds of `figure weld`; a speed belongs to the sheet it was found on."""
    options, found = {option.name: option for option in OPTIONS}, len(faults)
    typed = dict(zip(PROVED, texts, strict=True))
    speed, sheet, nozzle = (_read(f"--{name}", text, options[name].value, faults) for name, text in typed.items())
    given = {name for name, text in typed.items() if text is not None}
    faults.extend(
        Fault(
            "", 0, 0, f"--{name}", "", "speed and sheet of one test weld, together", f"--{name} {options[name].write}"
        )
        for name in PROVED[:2]
        if given and name not in given and len(faults) == found
    )
    return ProvedWeld(speed, sheet, nozzle)


def _read(option: str, text: str | None, reader: Callable[[str], T], faults: list[Fault]) -> T | None:
    """An option's value; None where it is not given, or can't be read, which is kept as a fault."""
    if text is None:
        return None
    try:
        return reader(text)
    except Unread as unread:
        faults.append(Fault("", 0, 0, option, text, unread.needs, f"{option} {unread.write}"))
        return None
