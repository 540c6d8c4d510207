"""Scripts, styles and fonts under an address that names their content, so that a browser keeps them for good.

The address changes with any byte of any of them; what is asked for without that name is asked for anew each time.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path

from fastapi import FastAPI
from starlette.responses import Response
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

PARTS = (("/fonts", "lapwright.packet", "fonts"), ("", "lapwright.workspace", "static"))  # the longer address first
FOR_GOOD = "public, max-age=31536000, immutable"
ASKED_ANEW = "no-cache"


class Held(StaticFiles):
    """Files with word of how long they hold."""

    def __init__(self, package: str, folder: str, holds: str) -> None:
        super().__init__(packages=[(package, folder)])
        self.holds = holds

    async def get_response(self, path: str, scope: Scope) -> Response:
        """A file, or word that the browser has it."""
        found = await super().get_response(path, scope)
        if found.status_code < 400:
            found.headers["cache-control"] = self.holds
        return found


def mount(app: FastAPI) -> str:
    """Serves all of them; the address that they have for pages."""
    held = f"/static/{digest(content())}"
    for base, holds in ((held, FOR_GOOD), ("/static", ASKED_ANEW)):
        for below, package, folder in PARTS:
            app.mount(f"{base}{below}", Held(package, folder, holds))
    return held


def content() -> Mapping[str, bytes]:
    """Every file by its place."""
    found = {}
    for below, package, folder in PARTS:
        root = Path(str(files(package))) / folder
        found.update({f"{below}/{each.relative_to(root).as_posix()}": each for each in root.rglob("*")})
    return {place: each.read_bytes() for place, each in sorted(found.items()) if each.is_file()}


def digest(content: Mapping[str, bytes]) -> str:
    """Sixteen characters that differ wherever a name or a byte does."""
    whole = hashlib.sha256()
    for place, data in content.items():
        whole.update(f"{place}\0{len(data)}\0".encode())
        whole.update(data)
    return whole.hexdigest()[:16]
