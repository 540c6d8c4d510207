"""The application: routes, static files, and how what can't be used is told."""

from __future__ import annotations

import json
import logging
from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager
from pathlib import Path
from types import MappingProxyType

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from starlette.exceptions import HTTPException

from lapwright import __version__
from lapwright.faults import Refused
from lapwright.plan.desk.jobtext import Moved
from lapwright.workspace import statics
from lapwright.workspace.guard import Guard
from lapwright.workspace.office import Office, office_in
from lapwright.workspace.routes import describe, figures, files, jobs, packets, pages, versions, views

ROUTERS = (
    pages.router,
    jobs.router,
    describe.router,
    files.router,
    packets.router,
    figures.router,
    versions.router,
    views.router,
)

WORDS: Mapping[str, str] = MappingProxyType(
    {
        "Not Found": "there is nothing at this address",
        "Method Not Allowed": "this address is not asked like that",
        "There was an error parsing the body": "the request can't be read",
    }
)


def make_app(folder: Path, *, port: int) -> Guard:
    """The workspace over a folder of jobs, behind its guard.  port: under which it is reached on this machine."""
    office = office_in(folder)
    app = FastAPI(title="Lapwright workspace", version=__version__, lifespan=lifespan, docs_url=None, redoc_url=None)
    app.state.office = office
    for router in ROUTERS:
        app.include_router(router)
    office.pages.globals["static"] = statics.mount(app)
    tell_faults(app)
    hosts = {f"{name}:{port}" for name in ("127.0.0.1", "localhost", "[::1]")}
    return Guard(app, frozenset(hosts), office.token)


@asynccontextmanager
async def lifespan(app: FastAPI) -> AsyncIterator[None]:
    """The planning process begins and ends with the server."""
    office: Office = app.state.office
    office.worker.start()
    yield
    office.worker.end()


def tell_faults(app: FastAPI) -> None:
    """Faults of the input, files that somebody else changed, and bugs: as plain JSON, or as a page for people."""

    def refused(request: Request, found: Exception) -> Response:
        faults = found.faults if isinstance(found, Refused) else ()
        if is_for_people(request):
            return pages.refusal(app.state.office, 422, "", faults)
        return told(422, "it can't be used as it is", {"faults": [fault.as_json() for fault in faults]})

    def moved(_: Request, found: Exception) -> Response:
        file = found.found if isinstance(found, Moved) else None
        now = None if file is None else {"text": file.text, "digest": file.digest}
        return told(409, "the file was changed elsewhere since this page read it", {"found": now})

    def malformed(_: Request, found: Exception) -> Response:
        errors = found.errors() if isinstance(found, RequestValidationError) else []
        words = "; ".join(f"{'.'.join(map(str, error['loc']))}: {error['msg']}" for error in errors[:5])
        return told(422, words or "the request can't be read", {})

    def http(request: Request, found: Exception) -> Response:
        status = found.status_code if isinstance(found, HTTPException) else 500
        words = WORDS.get(str(getattr(found, "detail", "")), str(getattr(found, "detail", "")))
        if is_for_people(request):
            return pages.refusal(app.state.office, status, words, ())
        return told(status, words, {})

    def bug(request: Request, found: Exception) -> Response:
        logging.getLogger("lapwright.workspace").exception("in %s %s", request.method, request.url.path, exc_info=found)
        return told(500, "something went wrong in Lapwright itself; the job file is as it was", {})

    app.add_exception_handler(Refused, refused)
    app.add_exception_handler(Moved, moved)
    app.add_exception_handler(RequestValidationError, malformed)
    app.add_exception_handler(HTTPException, http)
    app.add_exception_handler(Exception, bug)


def is_for_people(request: Request) -> bool:
    """A page was asked for, by a browser that shows it."""
    is_page = not request.url.path.startswith(("/api/", "/static/"))
    return request.method == "GET" and is_page and "text/html" in request.headers.get("accept", "")


def close(guard: Guard) -> None:
    """Lets go of whoever listens, so that the server can end."""
    guard.app.state.office.is_closing.set()


def told(status: int, words: str, more: Mapping[str, object]) -> Response:
    """An answer that says what is wrong; `faults` is always there."""
    body = json.dumps({"faults": [], "words": words, **more})  # in ASCII: what was read may be no text at all
    return Response(body, status_code=status, media_type="application/json")
