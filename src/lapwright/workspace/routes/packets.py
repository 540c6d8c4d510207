"""The packet's files: which there are, and each to look at or to keep."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Any

from fastapi import APIRouter, Depends
from fastapi.concurrency import run_in_threadpool
from fastapi.responses import FileResponse

from lapwright.plan.desk.packed import Packed, packed_file, packet_state
from lapwright.workspace.office import Office, office_of

router = APIRouter()
TheOffice = Annotated[Office, Depends(office_of)]
# Pages and pictures of a packet stand by themselves: they reach neither the network nor this server.
APART = "default-src 'none'; img-src data:; style-src 'unsafe-inline'; base-uri 'none'; frame-ancestors 'none'; sandbox"
POLICIES: Mapping[str, str] = MappingProxyType(
    {
        "figures.html": f"{APART} allow-scripts; script-src 'unsafe-inline'",
        "layout.svg": APART,
        # The browser's own reader of PDF files works by an object and styles of its own.
        "packet.pdf": "default-src 'none'; object-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'",
    }
)


@router.get("/api/jobs/{name}/packet")
async def state(name: str, office: TheOffice) -> dict[str, Any]:
    """The packet beside a job, and whether it was made from the job as it stands."""

    def make() -> dict[str, Any]:
        return packet_state(office.folder.place(name), office.folder.read(name).file.text)

    return await run_in_threadpool(make)


@router.get("/jobs/{name}/packet/{file}", include_in_schema=False)
async def packed(name: str, file: str, office: TheOffice) -> FileResponse:
    """A file of a job's packet."""
    found = await run_in_threadpool(lambda: packed_file(office.folder.place(name), file))
    return answer(name, found)


def answer(name: str, found: Packed) -> FileResponse:
    """A file, shown where a browser can, else kept under the job's name."""
    file = found.path.name
    policy = POLICIES.get(file)
    return FileResponse(
        found.path,
        media_type=found.kind.media,
        filename=f"{name}-{file}",
        content_disposition_type="inline" if found.kind.opens else "attachment",
        headers={"cache-control": "no-store"} | ({"content-security-policy": policy} if policy else {}),
    )
