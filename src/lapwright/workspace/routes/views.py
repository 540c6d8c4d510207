"""What is shown of a job: asked of the planning process, told line by line while it works.

An answer is a line of JSON each: {"tell": words} and {"draft": value} on the way, and last {"view": value} or
{"faults": [...]}.  Whoever closes the connection takes the question back, and the work stops.
"""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import suppress
from typing import Annotated

from fastapi import APIRouter, Depends, HTTPException, Request
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import StreamingResponse

from lapwright.plan.desk.stages import JobAsk
from lapwright.plan.desk.worker import MOST_WAITING, Said
from lapwright.plan.views.registry import find
from lapwright.workspace.office import Office, office_of

router = APIRouter(prefix="/api/jobs")
TheOffice = Annotated[Office, Depends(office_of)]
SILENCE_S = 0.25  # how soon a closed connection is noticed


@router.get("/{name}/views/{view}")
async def show(name: str, view: str, request: Request, office: TheOffice) -> StreamingResponse:
    """A view of a job; its options stand in the query."""
    if (await run_in_threadpool(find, view)).acts:
        raise HTTPException(405, "this is made when a page asks for it, not by its address", {"allow": "POST"})
    return await asked(name, view, request, office)


@router.post("/{name}/views/{view}")
async def act(name: str, view: str, request: Request, office: TheOffice) -> StreamingResponse:
    """A view that does something, such as writing files: asked for with the page's token."""
    await run_in_threadpool(find, view)
    return await asked(name, view, request, office)


async def asked(name: str, view: str, request: Request, office: Office) -> StreamingResponse:
    """The answer to a view, line by line."""
    file = (await run_in_threadpool(office.folder.read, name)).file
    ask = JobAsk(file.text, office.folder.place(name))
    if len(office.worker.waiting) >= MOST_WAITING:
        raise HTTPException(503, "too much is asked at once: close some of the pages")
    return StreamingResponse(lines(view, ask, request, office), media_type="application/x-ndjson")


async def lines(view: str, ask: JobAsk, request: Request, office: Office) -> AsyncIterator[bytes]:
    """What is heard of a question, until its last or until nobody listens any more."""
    loop, heard = asyncio.get_running_loop(), asyncio.Event()

    def wake() -> None:
        with suppress(RuntimeError):  # the server ended meanwhile
            loop.call_soon_threadsafe(heard.set)

    question = office.worker.ask(view, ask, dict(request.query_params), wake)
    is_over = False
    try:
        while not is_over:
            heard.clear()
            said = question.next(0)
            if said is None:
                if office.is_closing.is_set() or await request.is_disconnected():
                    return
                with suppress(TimeoutError):
                    await asyncio.wait_for(heard.wait(), SILENCE_S)
                continue
            is_over = said.is_last
            yield line(said)
    finally:
        if not is_over:
            office.worker.drop(question)


def line(said: Said) -> bytes:
    """One line of the answer."""
    if said.kind in ("draft", "done"):
        head = b'{"draft":' if said.kind == "draft" else b'{"view":'
        return b"".join((head, said.value, b"}\n"))
    if said.kind == "tell":
        return json.dumps({"tell": said.value}).encode() + b"\n"
    faults = [fault.as_json() for fault in said.value or ()]
    return json.dumps({"faults": faults, "stopped": said.kind == "stopped"}).encode() + b"\n"
