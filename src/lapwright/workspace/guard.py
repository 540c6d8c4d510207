"""What every request passes: it comes from this machine's own pages, is not too long, and is answered with a policy.

A page of another site could ask the browser to send requests here.  So the Host header must be this server's own name
(DNS rebinding), and whatever changes something carries the token that only our pages know, from the same origin.  A
header that is judged here and comes twice is refused: one reader takes the first, another the last.
"""

from __future__ import annotations

import asyncio
import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass

from fastapi import FastAPI
from starlette.types import Message, Receive, Scope, Send

TOKEN = "x-lapwright-token"  # noqa: S105  # the header's name
READS = frozenset({"GET", "HEAD"})
ONCE = (b"host", b"origin", b"sec-fetch-site", b"content-length", b"content-type", TOKEN.encode())
LATE_S = 30.0  # so long may a body pause
MOST_BYTES = 2 * 1024 * 1024
MOST_FILE_BYTES = 64 * 1024 * 1024  # of a drawing or a weather file
FILES = "/api/files/"
LONGEST_LENGTH = 12  # digits of a body's length
POLICY: Mapping[str, str] = {
    "content-security-policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
        "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}


class Cut(Exception):  # noqa: N818  # an outcome that is told
    """A request's body is not read to its end."""


@dataclass(frozen=True, slots=True)
class Guard:
    """The gate before the pages.  hosts: names with port under which this server may be asked for."""

    app: FastAPI
    hosts: frozenset[str]
    token: str

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets a request pass, or answers it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        names = [name for name, _ in scope["headers"]]
        refused = self.refused(scope["method"], headers)
        if any(names.count(name) > 1 for name in ONCE):
            refused = 400, "a header stands twice in the request"
        most = MOST_FILE_BYTES if scope["path"].startswith(FILES) else MOST_BYTES
        gate = Gate(receive, send, most)
        if refused is None and (length := headers.get("content-length")) is not None:
            refused = None if length.isascii() and length.isdigit() else (400, "the request's length can't be read")
            if refused is None and (len(length) > LONGEST_LENGTH or int(length) > most):
                refused = gate.too_long
        if refused is None:
            refused = await self.passed(scope, gate)
        if refused is not None:
            await answer(send, *refused)

    async def passed(self, scope: Scope, gate: Gate) -> tuple[int, str] | None:
        """Lets a request through; what is to be answered where its body was cut off before there was an answer."""
        try:
            await self.app(scope, gate.receive, gate.send)
        except Exception:
            if gate.cut is None or gate.is_begun:
                raise
        return None if gate.is_begun else gate.cut

    def refused(self, method: str, headers: Mapping[str, str]) -> tuple[int, str] | None:
        """The status and words for a request that is not let in; None for one that is."""
        if headers.get("host", "").casefold() not in self.hosts:
            return 403, "this server is asked for under the address that it printed when it started, and no other"
        origin = headers.get("origin")
        if origin is not None and origin.casefold().removeprefix("http://") not in self.hosts:
            return 403, "the request comes from a page of another site"
        if headers.get("sec-fetch-site", "none") not in ("same-origin", "none"):
            return 403, "the request comes from a page of another site"
        if method not in READS and not secrets.compare_digest(headers.get(TOKEN, "").encode(), self.token.encode()):
            return 403, "the page is from before the server was started anew: load it again"
        return None


@dataclass(slots=True)
class Gate:
    """The way of one request in and of its answer out.  cut: why the body was not read to its end, if so."""

    inner: Receive
    outer: Send
    most: int
    taken: int = 0
    is_whole: bool = False
    is_begun: bool = False
    cut: tuple[int, str] | None = None

    @property
    def too_long(self) -> tuple[int, str]:
        """What is answered to a body that is too long."""
        return 413, f"at most {self.most // 1024 // 1024} MB are read here"

    async def receive(self) -> Message:
        """The next part of the body.

        Raises: Cut where it is too long, or does not come
        """
        if self.is_whole:
            return await self.inner()
        try:
            message = await asyncio.wait_for(self.inner(), LATE_S)
        except TimeoutError:
            self.cut = 408, "the rest of the request did not come"
            raise Cut from None
        self.taken += len(message.get("body", b""))
        self.is_whole = not message.get("more_body", False)
        if self.taken > self.most:
            self.cut = self.too_long
            raise Cut
        return message

    async def send(self, message: Message) -> None:
        """The next part of the answer, its head with the policy; none where the body was cut off before it."""
        if self.cut is not None and not self.is_begun:
            return
        if message["type"] == "http.response.start":
            self.is_begun = True
            message["headers"] = [*message.get("headers", []), *policy(message.get("headers", []))]
        await self.outer(message)


def policy(given: list[tuple[bytes, bytes]]) -> list[tuple[bytes, bytes]]:
    """The policy's headers, with `no-store` where the answer does not say how long it holds."""
    names = {name.lower() for name, _ in given}
    found = [(name.encode(), value.encode()) for name, value in POLICY.items() if name.encode() not in names]
    return found if b"cache-control" in names else [*found, (b"cache-control", b"no-store")]


async def answer(send: Send, status: int, words: str) -> None:
    """A refusal in words."""
    body = json.dumps({"faults": [], "words": words}).encode()
    headers = [(b"content-type", b"application/json"), (b"content-length", str(len(body)).encode())]
    await send({"type": "http.response.start", "status": status, "headers": [*headers, *policy(headers)]})
    await send({"type": "http.response.body", "body": body})
