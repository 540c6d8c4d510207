"""What the pages share: the folder of jobs, the planning process, the token and the templates."""

from __future__ import annotations

import asyncio
import secrets
from dataclasses import dataclass, field
from pathlib import Path

from fastapi import Request
from jinja2 import Environment, PackageLoader, StrictUndefined, select_autoescape

from lapwright.plan.describe.sketch import Sketches
from lapwright.plan.desk.folder import Folder
from lapwright.plan.desk.listing import Listing
from lapwright.plan.desk.worker import Worker


@dataclass(slots=True)
class Office:
    """One server's own things."""

    folder: Folder
    listing: Listing
    worker: Worker = field(default_factory=Worker)
    sketches: Sketches = field(default_factory=Sketches)
    years: list[dict[str, str]] = field(default_factory=list)
    is_closing: asyncio.Event = field(default_factory=asyncio.Event)
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24))
    pages: Environment = field(
        default_factory=lambda: Environment(
            loader=PackageLoader("lapwright.workspace"),
            autoescape=select_autoescape(default=True, default_for_string=True),
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
    )


def office_of(request: Request) -> Office:
    """The server's things, as a route asks for them."""
    found: Office = request.app.state.office
    return found


def office_in(path: Path) -> Office:
    """An office over a folder."""
    folder = Folder(path)
    return Office(folder, Listing(folder))
