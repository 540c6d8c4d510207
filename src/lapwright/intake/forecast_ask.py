"""Asking the US National Weather Service for a forecast: the one place that uses the network.

Three replies make a forecast: the place, then its raw layers and its hourly periods.  The standard library's client is
enough for three small readings a day; what a service does when it is unwell (silence, error pages, half a reply) has to
be met here whatever library asks.  Links in a reply are followed by their path only, on the host that was asked.
"""

from __future__ import annotations

import http.client
import json
import ssl
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from dataclasses import dataclass
from http.client import HTTPMessage
from typing import IO, Any
from urllib.parse import urljoin, urlsplit

from lapwright.defaults.si import default_number
from lapwright.faults import Fault, Refused
from lapwright.intake.forecast_reply import SCHEMA, has_layers, has_periods, properties, said

SERVICE = "https://api.weather.gov"
_CHUNK = 65536
_MEGABYTE = 1_000_000
_AGAIN = (408, 425, 429, 500, 502, 503, 504)
_DECIMALS = 4  # the service redirects positions that are written finer


class Unanswered(Exception):  # noqa: N818  # the service's silence; whoever asked has the last good reply to turn to
    """The service gave no reply that can be used; the words say what it did."""


@dataclass(frozen=True, slots=True)
class Asking:
    """How to ask.

    base: address of the service.  agent: what we call ourselves, which the service demands.  pause: waits so many
    seconds; clock: seconds that only go forward.
    """

    base: str = SERVICE
    agent: str = "lapwright"
    pause: Callable[[float], None] = time.sleep
    clock: Callable[[], float] = time.monotonic


@dataclass(frozen=True, slots=True)
class _Failed:
    """A try that failed: what happened, whether another may help, how long the service asks to wait [s]."""

    words: str
    is_worth_another: bool
    wait_s: float = 0.0


def ask_forecast(latitude: float, longitude: float, asking: Asking, *, asked: str) -> dict[str, Any]:
    """The replies for a position [°] in the form in which they are saved.

    Args:
        asked: the time of asking, written into what is saved.

    Raises: Refused where the service knows no such place; Unanswered where nothing comes that can be used.
    """
    points = _ask_place(latitude, longitude, asking)
    inner = properties(points)
    found: dict[str, Any] = {"schema": SCHEMA, "asked": asked, "points": points, "grid": None, "hourly": None}
    failed = []
    for part, link, has in (("grid", "forecastGridData", has_layers), ("hourly", "forecastHourly", has_periods)):
        path = _path_of(inner.get(link))
        reply = _ask(path, asking) if path else _Failed(f"no address for the {part} in its reply", False)
        if isinstance(reply, dict) and not has(properties(reply)):
            reply = _Failed(f"a {part} reply without hours ({said(reply)[:60]})", False)
        if isinstance(reply, dict):
            found[part] = reply
        else:
            failed.append(reply.words)
    if found["grid"] is None and found["hourly"] is None:
        raise Unanswered("; ".join(dict.fromkeys(failed)))
    return found


def _ask_place(latitude: float, longitude: float, asking: Asking) -> dict[str, Any]:
    """The reply for the place, with the addresses of its forecasts."""
    where = ",".join(f"{value:.{_DECIMALS}f}".rstrip("0").rstrip(".") for value in (latitude, longitude))
    reply = _ask(f"/points/{where}", asking)
    if isinstance(reply, dict):
        return reply
    if reply.words.startswith("404"):
        needs = (
            "a site that the US National Weather Service forecasts for: the United States, its territories and waters"
        )
        write = "--forecast FILE.json, or the job's weather year without --forecast"
        raise Refused([Fault("", 0, 0, "site", f"{latitude:g}, {longitude:g}: {reply.words}", needs, write)])
    raise Unanswered(reply.words)


def _path_of(link: object) -> str:
    """The path of a link; only the host that was asked is asked again."""
    return urlsplit(link).path if isinstance(link, str) else ""


def _ask(path: str, asking: Asking) -> dict[str, Any] | _Failed:
    """One reply, asked for again after a while where that may help."""
    wait_s = default_number("forecast", "first_wait")
    tries = int(default_number("forecast", "tries"))
    failed = _Failed("not asked", False)
    for count in range(tries):
        found = _once(urljoin(asking.base, path), asking)
        if isinstance(found, dict):
            return found
        failed = found
        if not found.is_worth_another or count + 1 == tries:
            break
        asking.pause(min(max(wait_s, found.wait_s), default_number("forecast", "longest_wait")))
        wait_s *= 2
    return failed


def _once(url: str, asking: Asking) -> dict[str, Any] | _Failed:
    """One try."""
    request = urllib.request.Request(  # noqa: S310  # the scheme is that of the base, which the user sets
        url, headers={"User-Agent": asking.agent, "Accept": "application/geo+json"}
    )
    try:
        opener = urllib.request.build_opener(_SameHost, urllib.request.HTTPSHandler(context=_trusted()))
        with opener.open(request, timeout=default_number("forecast", "time_out")) as answer:
            content = _read(answer, asking)
    except urllib.error.HTTPError as error:
        with error:
            return _refusal(error)
    except (TimeoutError, urllib.error.URLError, http.client.HTTPException, OSError, ValueError) as error:
        return _Failed(_why(error), True)
    return content if isinstance(content, _Failed) else _parsed(content)


def _trusted() -> ssl.SSLContext:
    """Who may vouch for the service: the machine's own list, and the one that comes with our libraries.

    Some machines' Python has no list of its own.
    """
    import certifi

    context = ssl.create_default_context()
    context.load_verify_locations(certifi.where())
    return context


def _refusal(error: urllib.error.HTTPError) -> _Failed:
    """What a status that is no success comes to."""
    try:
        told = json.loads(error.read(_CHUNK))
        detail = f": {said(told)}" if isinstance(told, dict) else ""
    except (ValueError, OSError, http.client.HTTPException, RecursionError):
        detail = ""
    after = (error.headers.get("Retry-After") or "").strip()
    wait_s = float(after) if after.isdecimal() and len(after) < 6 else 0.0
    words = " ".join(f"{error.code} {error.reason}{detail}".split())[:160]
    return _Failed(words, error.code in _AGAIN, wait_s)


def _read(answer: IO[bytes], asking: Asking) -> bytes | _Failed:
    """The bytes of a reply, within size and time."""
    most = int(default_number("forecast", "largest_reply") * _MEGABYTE)
    until = asking.clock() + default_number("forecast", "reply_time")
    parts, size = [], 0
    while part := answer.read1(_CHUNK) if hasattr(answer, "read1") else answer.read(_CHUNK):
        parts.append(part)
        size += len(part)
        if size > most:
            return _Failed(f"a reply of more than {most // _MEGABYTE} MB", False)
        if asking.clock() > until:
            return _Failed("a reply that does not come to its end", True)
    told = getattr(answer, "headers", HTTPMessage()).get("Content-Length") or ""
    if told.isdecimal() and size < int(told):
        return _Failed("a reply that breaks off", True)
    return b"".join(parts)


def _parsed(content: bytes) -> dict[str, Any] | _Failed:
    """A reply's JSON."""
    try:
        found = json.loads(content)
    except (ValueError, RecursionError):
        what = "a web page" if content.lstrip()[:1] == b"<" else "a reply that breaks off or is no JSON"
        return _Failed(what, True)
    return found if isinstance(found, dict) else _Failed("a reply of another form", False)


def _why(error: Exception) -> str:
    """A failure of the line in words."""
    reason = getattr(error, "reason", error)
    if isinstance(reason, TimeoutError):
        return "no answer in time"
    if isinstance(error, http.client.HTTPException):
        return "a reply that breaks off"
    return " ".join(str(getattr(reason, "strerror", None) or reason).split())[:120] or type(error).__name__


class _SameHost(urllib.request.HTTPRedirectHandler):
    """Redirects are followed on the host that was asked, and nowhere else."""

    max_redirections = 5

    def redirect_request(  # the library's own signature
        self, req: urllib.request.Request, fp: IO[bytes], code: int, msg: str, headers: HTTPMessage, newurl: str
    ) -> urllib.request.Request | None:
        """The request to go on with; an error where it leads elsewhere."""
        asked, led = urlsplit(req.full_url), urlsplit(newurl)
        if (asked.scheme, asked.netloc) != (led.scheme, led.netloc):
            raise urllib.error.URLError("sent on to another host")
        return super().redirect_request(req, fp, code, msg, headers, newurl)
