"""Files for the jobs: drawings and weather that somebody gives, and the list of sheets."""

from __future__ import annotations

from contextlib import suppress
from pathlib import Path
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Request
from fastapi.concurrency import run_in_threadpool
from pydantic import BaseModel, ConfigDict, Field

from lapwright.plan.describe.given import beginning, checked_name, keep, listed, look, look_at
from lapwright.plan.describe.layered import drawing_edits, uses
from lapwright.plan.describe.sheetlist import keep_sheet, sheets_kept
from lapwright.plan.describe.typed import typed_job
from lapwright.workspace.office import Office, office_of
from lapwright.workspace.routes.describe import Words, ask_of

router = APIRouter(prefix="/api")
TheOffice = Annotated[Office, Depends(office_of)]


class Layer(BaseModel):
    """A layer and what it is taken for; area: the name, of an outline; size: what is said of all that stands on it."""

    model_config = ConfigDict(extra="forbid")
    layer: Words = Field(min_length=1, max_length=255)
    use: Words = Field(max_length=40)
    area: Words = Field(default="", max_length=80)
    size: Words = Field(default="", max_length=40)


class Layers(BaseModel):
    """Layers of a drawing that are taken for a job."""

    model_config = ConfigDict(extra="forbid")
    file: Words = Field(max_length=100)
    unit: Words = Field(default="", max_length=10)
    layers: list[Layer] = Field(max_length=200)


class Kept(BaseModel):
    """A sheet of a job, to be kept in the list."""

    model_config = ConfigDict(extra="forbid")
    job: Words = Field(max_length=200)
    sheet: Words = Field(max_length=200)


@router.get("/files")
async def files(office: TheOffice) -> dict[str, Any]:
    """Drawings and weather files of the folder, and what layers can be taken for."""
    return {"files": await run_in_threadpool(listed, office.folder.path), "uses": uses()}


@router.post("/files/{name}", status_code=201)
async def give(name: str, request: Request, office: TheOffice) -> dict[str, Any]:
    """A file kept in the folder, once a process with limits has looked into it; what is in it."""
    checked_name(name)
    path, stream = await run_in_threadpool(beginning, office.folder.path)
    try:
        with stream:
            async for part in request.stream():
                await run_in_threadpool(stream.write, part)
        return await run_in_threadpool(keep, office.folder.path, name, path)
    finally:
        with suppress(OSError):
            path.unlink()


@router.get("/files/{name}/layers")
async def layers(name: str, office: TheOffice) -> dict[str, Any]:
    """The layers of a drawing in the folder."""
    return await run_in_threadpool(look_at, office.folder.path, name)


@router.post("/jobs/{name}/drawing")
async def drawing(name: str, taken: Layers, office: TheOffice) -> dict[str, Any]:
    """The edits that take layers of a drawing for areas and what stands in them, and what these come to."""

    def make() -> dict[str, Any]:
        ask = ask_of(office, name)
        typed = typed_job(ask.text, file=ask.path.name)
        rows = [each.model_dump() for each in taken.layers]
        areas = office.sketches.of(ask).areas
        was = {area.name: len(area.corners) for area in areas if area.is_whole and area.sides}
        return drawing_edits(typed, ask.path.parent, taken.file, rows, taken.unit, was)

    return await run_in_threadpool(make)


@router.get("/years")
async def years(office: TheOffice) -> dict[str, Any]:
    """The bundled years with their places and months; read once."""
    if not office.years:
        office.years = (await run_in_threadpool(look, "years", Path(), "years"))["years"]
    return {"years": office.years}


@router.get("/sheets")
async def sheets(office: TheOffice) -> dict[str, Any]:
    """The list of sheets."""
    return {"sheets": await run_in_threadpool(sheets_kept, office.folder.path)}


@router.post("/sheets")
async def keep_one(kept: Kept, office: TheOffice) -> dict[str, Any]:
    """A sheet of a job put into the list."""

    def make() -> dict[str, Any]:
        ask = ask_of(office, kept.job)
        return {"sheets": keep_sheet(office.folder.path, typed_job(ask.text, file=ask.path.name), kept.sheet)}

    return await run_in_threadpool(make)
