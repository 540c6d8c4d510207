"""The job files: which there are, their text, their changes, and how to take these back."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import suppress
from dataclasses import asdict
from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import StreamingResponse
from pydantic import BaseModel, ConfigDict, Field

from lapwright.faults import Refused
from lapwright.plan.desk.edits import apply
from lapwright.plan.desk.editsjson import edits_from
from lapwright.plan.desk.folder import Standing
from lapwright.plan.desk.judging import faults_of
from lapwright.plan.desk.measuring import tape_words
from lapwright.plan.desk.title import title_of
from lapwright.workspace.office import Office, office_of

router = APIRouter(prefix="/api/jobs")
TheOffice = Annotated[Office, Depends(office_of)]
Metre = Annotated[float, Query(ge=-1e5, le=1e5, allow_inf_nan=False)]
LOOK_S = 1.0  # how often a file is looked at for changes made elsewhere
READ_EVERY = 30  # looks; between these it is read only where its time or size is another
WORD_EVERY = 10  # looks, until the other side is told that the line still holds


class NewJob(BaseModel):
    """A job to begin."""

    model_config = ConfigDict(extra="forbid")
    name: str = Field(max_length=200)
    title: str = Field(default="", max_length=200)
    units: str = Field(default="us", pattern="^(us|metric)$")


class Change(BaseModel):
    """Changes of a job file.  seen: digest of the text they are meant for; words: what they do, for taking back."""

    model_config = ConfigDict(extra="forbid")
    seen: str = Field(max_length=64)
    edits: list[dict[str, Any]] = Field(max_length=200)
    words: str = Field(default="changed", max_length=200)


class Seen(BaseModel):
    """The digest of the text that a step back or forth is meant for."""

    model_config = ConfigDict(extra="forbid")
    seen: str = Field(max_length=64)


@router.get("")
async def names(office: TheOffice) -> dict[str, list[str]]:
    """The jobs of the folder."""
    return {"jobs": list(await run_in_threadpool(office.folder.names))}


@router.post("", status_code=201)
async def begin(new: NewJob, office: TheOffice) -> dict[str, Any]:
    """A new job, with nothing in it yet."""
    return await run_in_threadpool(lambda: shown(office, office.folder.begin(new.name, new.title, new.units)))


@router.get("/{name}/text")
async def text(name: str, office: TheOffice) -> dict[str, Any]:
    """A job file's text, its faults, and what can be taken back."""
    return await run_in_threadpool(lambda: shown(office, office.folder.read(name)))


@router.post("/{name}/edits")
async def edit(name: str, change: Change, office: TheOffice) -> dict[str, Any]:
    """Changes of a job file: all of them or none."""

    def make() -> dict[str, Any]:
        edits = edits_from(change.edits)
        file = f"{name}.yaml"
        changed = office.folder.change(name, change.seen, lambda text: apply(text, edits, file), change.words)
        return shown(office, changed)

    return await run_in_threadpool(make)


@router.post("/{name}/undo")
async def undo(name: str, seen: Seen, office: TheOffice) -> dict[str, Any]:
    """The last step taken back."""
    return await run_in_threadpool(lambda: shown(office, office.folder.undo(name, seen.seen)))


@router.post("/{name}/redo")
async def redo(name: str, seen: Seen, office: TheOffice) -> dict[str, Any]:
    """The step taken back last made again."""
    return await run_in_threadpool(lambda: shown(office, office.folder.redo(name, seen.seen)))


@router.get("/{name}/changes")
async def changes(name: str, request: Request, office: TheOffice) -> StreamingResponse:
    """The digest of the file, now and whenever it changed, as server-sent events; empty while there is no file."""
    await run_in_threadpool(office.folder.place, name)
    return StreamingResponse(watched(name, request, office), media_type="text/event-stream")


async def watched(name: str, request: Request, office: Office) -> AsyncIterator[str]:
    """Looks at the file once a second, and reads it where it may have changed, or now and then in any case."""
    told, stamp, looks = None, None, 0
    while not (office.is_closing.is_set() or await request.is_disconnected()):
        now = await run_in_threadpool(office.folder.stamp, name)
        if now != stamp or looks % READ_EVERY == 0:
            digest = await run_in_threadpool(digest_or_none, office, name)
            if digest != told:
                yield f"data: {json.dumps({'digest': digest})}\n\n"
            told, stamp = digest, now
        elif looks % WORD_EVERY == 0:
            yield ": still here\n\n"
        looks += 1
        with suppress(TimeoutError):
            await asyncio.wait_for(office.is_closing.wait(), LOOK_S)


def digest_or_none(office: Office, name: str) -> str:
    """The digest of a job's file; empty where it can't be read."""
    try:
        return office.folder.read(name).file.digest
    except Refused:
        return ""


def shown(office: Office, standing: Standing) -> dict[str, Any]:
    """A job file as pages take it."""
    file = standing.file
    path = office.folder.path / file.name
    return {
        "text": file.text,
        "digest": file.digest,
        "undo": standing.undo,
        "redo": standing.redo,
        "title": asdict(title_of(file.text)),
        "faults": [fault.as_json() for fault in faults_of(file.text, path)],
    }


@router.get("/{name}/distance")
async def distance(name: str, x0: Metre, y0: Metre, x1: Metre, y1: Metre, office: TheOffice) -> dict[str, str]:
    """The distance of two points of the plan [m] as a tape reads it."""

    def make() -> dict[str, str]:
        return tape_words(office.folder.read(name).file.text, (x0, y0), (x1, y1))

    return await run_in_threadpool(make)
