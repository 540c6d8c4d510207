"""What a job can be compared with: the other files of the folder, its own steps, and the fields of a what-if."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends
from fastapi.concurrency import run_in_threadpool

from lapwright.plan.desk.versions import versions_listed
from lapwright.workspace.office import Office, office_of

router = APIRouter(prefix="/api/jobs")
TheOffice = Annotated[Office, Depends(office_of)]


@router.get("/{name}/versions")
async def versions(name: str, office: TheOffice) -> dict[str, Any]:
    """The versions of a job."""

    def make() -> dict[str, Any]:
        return versions_listed(office.folder.place(name), office.folder.read(name).file.text)

    return await run_in_threadpool(make)
