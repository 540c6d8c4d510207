"""The pages: each is a sheet of the job's set, drawn by its own script; the server only fills in the frame."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Annotated, Any

from fastapi import APIRouter, Depends, HTTPException
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import HTMLResponse

from lapwright import __version__
from lapwright.faults import Fault
from lapwright.plan.desk.title import Title, title_of
from lapwright.workspace.office import Office, office_of

router = APIRouter(include_in_schema=False)
TheOffice = Annotated[Office, Depends(office_of)]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A page of a job: its place in the address, its name, and what it answers."""

    key: str
    name: str
    about: str


SHEETS = (
    Sheet("overview", "Overview", "What the job comes to, and what is still to be given"),
    Sheet("describe", "Describe", "The roof as measured, its edges, openings and drains, sheets, weather, crew"),
    Sheet("file", "Job file", "The file that holds all of it"),
    Sheet("roof", "Roof", "Every ply, piece and lap to scale"),
    Sheet("hours", "Hours", "Which hours are fit for which operation, and why"),
    Sheet("days", "Days", "What each crew day lays and where it ends"),
    Sheet("order", "Order", "What to order, and what asks for it"),
    Sheet("checks", "Checks", "Whether it stays on, drains and is carried, step by step"),
    Sheet("packet", "Packet", "Everything as files to print and send"),
    Sheet("compare", "Compare", "Two versions of the job side by side"),
    Sheet("figures", "Figures", "One calculation by itself"),
)
BY_KEY: Mapping[str, Sheet] = {sheet.key: sheet for sheet in SHEETS}


@dataclass(frozen=True, slots=True)
class Frame:
    """What every page is given.  job: its name in the folder, empty on pages of no job; number: of the sheet."""

    token: str
    version: str
    sheets: tuple[Sheet, ...]
    page: str
    name: str
    about: str
    job: str = ""
    digest: str = ""
    title: Title = field(default_factory=Title)
    number: int = 0


@router.get("/")
async def start(office: TheOffice) -> HTMLResponse:
    """The jobs of the folder, and how to begin one."""
    frame = Frame(office.token, __version__, SHEETS, "start", "Jobs", "The jobs of this folder")

    def make() -> HTMLResponse:
        jobs, more = office.listing.rows()
        return written(office, "start.html", frame, jobs=jobs, more=more)

    return await run_in_threadpool(make)


@router.get("/figures")
async def figures(office: TheOffice) -> HTMLResponse:
    """The figures by themselves, without a job."""
    sheet = BY_KEY["figures"]
    frame = Frame(office.token, __version__, SHEETS, sheet.key, sheet.name, sheet.about)
    return await run_in_threadpool(lambda: written(office, "figures.html", frame))


@router.get("/jobs/{name}")
async def overview(name: str, office: TheOffice) -> HTMLResponse:
    """The first sheet of a job."""
    return await sheet(name, "overview", office)


@router.get("/jobs/{name}/{key}")
async def sheet(name: str, key: str, office: TheOffice) -> HTMLResponse:
    """One sheet of a job."""
    if key not in BY_KEY:
        raise HTTPException(404, "there is no such sheet")
    return await run_in_threadpool(framed, office, name, BY_KEY[key])


def framed(office: Office, name: str, sheet: Sheet) -> HTMLResponse:
    """A sheet in its frame."""
    file = office.folder.read(name).file
    frame = Frame(
        office.token,
        __version__,
        SHEETS,
        sheet.key,
        sheet.name,
        sheet.about,
        job=name,
        digest=file.digest,
        title=title_of(file.text),
        number=SHEETS.index(sheet) + 1,
    )
    return written(office, f"{sheet.key}.html", frame)


def refusal(office: Office, status: int, words: str, faults: Sequence[Fault]) -> HTMLResponse:
    """A page in place of one that can't be shown."""
    frame = Frame(office.token, __version__, SHEETS, "refused", "Not shown", "This can't be shown as it is")
    page = written(office, "refused.html", frame, words=words, faults=faults)
    page.status_code = status
    return page


def written(office: Office, template: str, frame: Frame, **more: Any) -> HTMLResponse:  # noqa: ANN401  # a page's own
    """A page."""
    return HTMLResponse(office.pages.get_template(template).render(frame=frame, **more))
