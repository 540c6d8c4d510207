"""A weather service on this machine's loopback that replays made replies, good and bad, in the order given."""

import http.server
import json
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

import forecast_sample as sample

Handler = http.server.BaseHTTPRequestHandler
Answer = Callable[[Handler], None]
GRID, HOURLY, POINTS = "/gridpoints/RAH/25,64", "/gridpoints/RAH/25,64/forecast/hourly", "/points/36.1,-79.95"


@dataclass
class Service:
    """What the server does: answers by path, one after another, the last again and again; what it was asked."""

    base: str = ""
    answers: dict[str, list[Answer]] = field(default_factory=dict)
    asked: list[str] = field(default_factory=list)
    agents: list[str] = field(default_factory=list)

    def put(self, path: str, *answers: Answer) -> None:
        """Other answers for a path."""
        self.answers[path] = list(answers)


def send(status: int, body: bytes, kind: str = "application/geo+json", **headers: str) -> Answer:
    """An answer with a body."""

    def answer(handler: Handler) -> None:
        handler.send_response(status)
        handler.send_header("Content-Type", kind)
        handler.send_header("Content-Length", str(len(body)))
        for name, value in headers.items():
            handler.send_header(name.replace("_", "-"), value)
        handler.end_headers()
        handler.wfile.write(body)

    return answer


def reply(content: object) -> Answer:
    """A reply as it should be."""
    return send(200, json.dumps(content).encode())


def problem(status: int, title: str) -> Answer:
    """An error as the service sends it."""
    told = {"type": "https://api.weather.gov/problems/x", "title": title, "status": status, "detail": "made"}
    return send(status, json.dumps(told).encode(), "application/problem+json")


def cut_short(content: object) -> Answer:
    """A reply that promises more than it sends."""
    body = json.dumps(content).encode()

    def answer(handler: Handler) -> None:
        handler.send_response(200)
        handler.send_header("Content-Length", str(len(body)))
        handler.end_headers()
        handler.wfile.write(body[: len(body) // 2])

    return answer


def silent(handler: Handler) -> None:
    """No word until the other side gives up."""
    handler.rfile.read(1)


@contextmanager
def service() -> Iterator[Service]:
    """A running service with good replies on every path."""
    made = Service()

    class Replays(Handler):
        protocol_version = "HTTP/1.0"

        def do_GET(self) -> None:  # noqa: N802  # the library's name
            made.asked.append(self.path)
            made.agents.append(self.headers.get("User-Agent", ""))
            waiting = made.answers.get(self.path)
            if not waiting:
                problem(404, "Not Found")(self)
                return
            (waiting.pop(0) if len(waiting) > 1 else waiting[0])(self)

        def log_message(self, format: str, *args: object) -> None:
            """Nothing."""

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Replays)
    server.daemon_threads = True
    made.base = f"http://127.0.0.1:{server.server_address[1]}"
    made.put(POINTS, reply(sample.points()))
    made.put(GRID, reply(sample.grid()))
    made.put(HOURLY, reply(sample.hourly()))
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True)
    thread.start()
    try:
        yield made
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
