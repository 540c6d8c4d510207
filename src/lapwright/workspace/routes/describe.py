"""A job while it is described: its fields, the live outline, places pointed at, and edits that several sides share.

These answer at once, beside the planning process, which may be long at work.
"""

from __future__ import annotations

import json
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import Response
from pydantic import AfterValidator, BaseModel, ConfigDict, Field

from lapwright.plan.describe.form import form_json
from lapwright.plan.describe.outline import outline_json
from lapwright.plan.describe.sides import side_edits
from lapwright.plan.describe.sketch import sketch
from lapwright.plan.describe.spots import placed, pointed, stepped
from lapwright.plan.describe.typed import typed_job
from lapwright.plan.desk.stages import JobAsk
from lapwright.workspace.office import Office, office_of

router = APIRouter(prefix="/api/jobs")
TheOffice = Annotated[Office, Depends(office_of)]


def sendable(text: str) -> str:
    """A text that an answer can hold; half of a pair of UTF-16 is none."""
    text.encode("utf-8")  # its error is a ValueError, which is told
    return text


Words = Annotated[str, AfterValidator(sendable)]
Millimetre = Annotated[float, Query(ge=-1e9, le=1e9, allow_inf_nan=False)]
Steps = Annotated[int, Query(ge=-100_000, le=100_000)]


class Walks(BaseModel):
    """A walk as it is typed just now, for the area at a place."""

    model_config = ConfigDict(extra="forbid")
    area: int = Field(ge=0, le=10_000)
    walk: Words = Field(max_length=100_000)


class Sides(BaseModel):
    """What is said of some sides of an area."""

    model_config = ConfigDict(extra="forbid")
    area: int = Field(ge=0, le=10_000)
    sides: list[int] = Field(min_length=1, max_length=5_000)
    said: dict[Words, Words | dict[Words, Words]] = Field(max_length=20)


def ask_of(office: Office, name: str) -> JobAsk:
    """A job as it stands on the disk."""
    return JobAsk(office.folder.read(name).file.text, office.folder.place(name))


@router.get("/{name}/form")
async def form(name: str, office: TheOffice) -> Response:
    """The steps of the description, their fields, and what is wrong or missing at each."""
    body = await run_in_threadpool(lambda: json.dumps(form_json(ask_of(office, name))))
    return Response(body, media_type="application/json")


@router.get("/{name}/outline")
async def outline(name: str, office: TheOffice) -> dict[str, Any]:
    """The areas as far as they are described."""
    return await run_in_threadpool(lambda: outline_json(office.sketches.of(ask_of(office, name))))


@router.post("/{name}/outline")
async def outline_typed(name: str, typed: Walks, office: TheOffice) -> dict[str, Any]:
    """The same with a walk as it is typed just now, which is not saved."""
    return await run_in_threadpool(lambda: outline_json(sketch(ask_of(office, name), walks={typed.area: typed.walk})))


@router.get("/{name}/point")
async def point(name: str, area: int, x: Millimetre, y: Millimetre, office: TheOffice) -> dict[str, Any]:
    """A place pointed at on the drawing [mm], in tape distances."""
    return await run_in_threadpool(lambda: pointed(office.sketches.of(ask_of(office, name)), area, x, y))


@router.get("/{name}/place")
async def place(
    name: str, path: str, area: int, x: Millimetre, y: Millimetre, office: TheOffice, kind: str = ""
) -> dict[str, Any]:
    """The edits that put something where it is pointed at."""
    return await run_in_threadpool(
        lambda: {"edits": placed(office.sketches.of(ask_of(office, name)), path, kind, area, x, y)}
    )


@router.get("/{name}/step")
async def step(name: str, path: str, east: Steps, north: Steps, office: TheOffice) -> dict[str, Any]:
    """The edits that move something by cut steps."""
    return await run_in_threadpool(
        lambda: {"edits": stepped(office.sketches.of(ask_of(office, name)), path, east, north)}
    )


@router.post("/{name}/sides")
async def sides(name: str, meant: Sides, office: TheOffice) -> dict[str, Any]:
    """The edits that say the same of several sides."""

    def make() -> dict[str, Any]:
        ask = ask_of(office, name)
        return {"edits": side_edits(typed_job(ask.text, file=ask.path.name), meant.area, meant.sides, meant.said)}

    return await run_in_threadpool(make)
