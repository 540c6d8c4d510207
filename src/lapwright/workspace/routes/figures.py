"""The figures: what each asks, what comes of it, and what a job has of its values."""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Depends, Query, Request
from fastapi.concurrency import run_in_threadpool

from lapwright.workspace.office import Office, office_of

router = APIRouter(prefix="/api")
TheOffice = Annotated[Office, Depends(office_of)]
System = Annotated[str, Query(pattern="^(us|metric)$")]


@router.get("/figures")
async def forms(units: System = "us") -> dict[str, Any]:
    """Every figure as a form."""

    def make() -> dict[str, Any]:
        from lapwright.plan.desk.figuring import figure_forms  # loads scipy, which takes its time

        return {"figures": figure_forms(units)}

    return await run_in_threadpool(make)


@router.get("/figures/{name}")
async def answer(name: str, request: Request, units: System = "us") -> dict[str, Any]:
    """What comes of a figure; its options stand in the query."""
    given = {option: text for option, text in request.query_params.items() if option != "units"}

    def make() -> dict[str, Any]:
        from lapwright.plan.desk.figuring import figure_answer  # loads scipy, which takes its time

        return figure_answer(name, given, units)

    return await run_in_threadpool(make)


@router.get("/jobs/{name}/figures")
async def values(name: str, office: TheOffice) -> dict[str, Any]:
    """What a job has of the values that figures ask for."""

    def make() -> dict[str, Any]:
        from lapwright.plan.desk.figurefill import job_values  # loads scipy, which takes its time

        return {"values": job_values(office.folder.read(name).file.text)}

    return await run_in_threadpool(make)
