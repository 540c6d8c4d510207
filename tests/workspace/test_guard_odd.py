"""Odd requests at the gate: headers that come twice, bodies without a length, bodies that never end."""

from __future__ import annotations

import http.client
import socket
from collections.abc import Iterator
from pathlib import Path

import anyio
import pytest
from anyio.from_thread import start_blocking_portal
from starlette.types import Message

from lapwright.workspace import guard as gate
from lapwright.workspace.app import make_app
from lapwright.workspace.guard import MOST_BYTES, TOKEN, Guard

PORT = 8796
HOST = (b"host", f"127.0.0.1:{PORT}".encode())


@pytest.fixture
def guard(tmp_path: Path) -> Guard:
    """The application behind its guard, over an empty folder."""
    return make_app(tmp_path, port=PORT)


def asked(
    guard: Guard, method: str, path: str, headers: list[tuple[bytes, bytes]], parts: Iterator[bytes] | None = None
) -> int:
    """The status of a request as a server hands it over; a body that stops coming waits for ever."""
    told: list[Message] = []
    coming = parts or iter(())

    async def receive() -> Message:
        part = next(coming, None)
        if part is None and method == "POST":
            await anyio.sleep_forever()
        return {"type": "http.request", "body": part or b"", "more_body": method == "POST"}

    async def send(message: Message) -> None:
        told.append(message)

    scope = {
        "type": "http",
        "method": method,
        "path": path,
        "raw_path": path.encode(),
        "query_string": b"",
        "headers": headers,
        "http_version": "1.1",
        "scheme": "http",
        "server": ("127.0.0.1", PORT),
    }
    with start_blocking_portal() as portal:  # a thread of its own: a browser's tests have a loop in this one
        portal.call(guard, scope, receive, send)
    starts = [message["status"] for message in told if message["type"] == "http.response.start"]
    assert len(starts) == 1
    return int(starts[0])


@pytest.mark.parametrize("name", [b"host", b"origin", b"sec-fetch-site", b"content-length", TOKEN.encode()])
def test_a_header_that_comes_twice_is_refused(guard: Guard, name: bytes) -> None:
    """Whichever of the two somebody else would have believed."""
    good = {b"origin": b"http://" + HOST[1], b"sec-fetch-site": b"none", b"content-length": b"0", HOST[0]: HOST[1]}
    twice = [(name, b"evil.example"), (name, good.get(name, guard.token.encode()))]
    rest = [HOST] if name != b"host" else []
    assert asked(guard, "GET", "/api/jobs", [*rest, *twice]) == http.client.BAD_REQUEST


def test_a_long_body_without_a_length_is_cut(guard: Guard) -> None:
    """Part by part, with no length said before: it ends at two megabytes, in words."""
    headers = [HOST, (TOKEN.encode(), guard.token.encode()), (b"content-type", b"application/json")]
    parts = iter([b" " * 65_536] * (MOST_BYTES // 65_536 + 1))
    assert asked(guard, "POST", "/api/jobs", headers, parts) == http.client.REQUEST_ENTITY_TOO_LARGE


def test_a_body_that_stops_coming_is_given_up(guard: Guard, monkeypatch: pytest.MonkeyPatch) -> None:
    """After so long a pause the request is answered and forgotten."""
    monkeypatch.setattr(gate, "LATE_S", 0.1)
    headers = [HOST, (TOKEN.encode(), guard.token.encode()), (b"content-type", b"application/json")]
    assert asked(guard, "POST", "/api/jobs", headers, iter([b"{"])) == http.client.REQUEST_TIMEOUT


@pytest.mark.parametrize("length", [b"-1", b"1e3", b"9" * 5000, "²".encode("latin-1")])
def test_lengths_that_are_none_are_refused(guard: Guard, length: bytes) -> None:
    """Nothing is read of such a request."""
    headers = [HOST, (TOKEN.encode(), guard.token.encode()), (b"content-length", length)]
    assert asked(guard, "POST", "/api/jobs", headers) in (http.client.BAD_REQUEST, http.client.REQUEST_ENTITY_TOO_LARGE)


def test_the_port_is_this_machine_s_alone(tmp_path: Path) -> None:
    """The socket listens at the loopback address and no other."""
    from lapwright.cli.serve import listening

    with listening(0) as found:
        assert found.getsockname()[0] == "127.0.0.1"
        assert found.family == socket.AF_INET
