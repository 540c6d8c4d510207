"""What every request passes: it comes from this machine's own pages, is not too long, and is answered with a policy.

A page of another site could ask the browser to send requests here.  So the Host header must be this server's own name
(DNS rebinding), and whatever changes something carries the token that only our pages know, from the same origin.
"""

from __future__ import annotations

import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field

from starlette.types import ASGIApp, Message, Receive, Scope, Send

TOKEN = "x-lapwright-token"  # noqa: S105  # the header's name
READS = frozenset({"GET", "HEAD"})
MOST_BYTES = 2 * 1024 * 1024
MOST_FILE_BYTES = 64 * 1024 * 1024  # of a drawing or a weather file
FILES = "/api/files/"
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


class TooLong(Exception):  # noqa: N818  # an outcome that is told
    """A request's body is longer than is read."""


@dataclass(frozen=True, slots=True)
class Guard:
    """The gate before the pages.  hosts: names with port under which this server may be asked for."""

    app: ASGIApp
    hosts: frozenset[str]
    token: str

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets a request pass, or answers it."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        headers = {name.decode("latin-1"): value.decode("latin-1") for name, value in scope["headers"]}
        refused = self.refused(scope["method"], headers)
        if refused is not None:
            await answer(send, *refused)
            return
        most = MOST_FILE_BYTES if scope["path"].startswith(FILES) else MOST_BYTES
        gate = Gate(receive, send, most)
        try:
            if int(headers.get("content-length") or 0) > most:
                raise TooLong
            await self.app(scope, gate.receive, gate.send)
        except TooLong:
            await answer(send, 413, f"at most {most // 1024 // 1024} MB are read here")
        except ValueError:
            if gate.is_begun:
                raise
            await answer(send, 400, "the length of the request can't be read")

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
    """The way of one request in and of its answer out."""

    inner: Receive
    outer: Send
    most: int
    taken: int = 0
    is_begun: bool = field(default=False)

    async def receive(self) -> Message:
        """The next part of the body.

        Raises: TooLong
        """
        message = await self.inner()
        self.taken += len(message.get("body", b""))
        if self.taken > self.most and not self.is_begun:
            raise TooLong
        return message

    async def send(self, message: Message) -> None:
        """The next part of the answer, its head with the policy."""
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
