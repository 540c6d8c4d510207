"""A server that is started where it can't be, and one that ends: in words, within seconds, with nothing left behind."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest

from .jobs import SMALL, START, Served, serve

LARGE = SMALL.replace("E 30', N 12', W 30', S 12'", "E 400', N 300', W 400', S 300'")
SECONDS = 15.0  # on a busy machine; two by themselves


def children(pid: int) -> list[int]:
    """Processes that a process began."""
    found = subprocess.run(["ps", "--ppid", str(pid), "-o", "pid="], capture_output=True, text=True, check=False)
    return [int(word) for word in found.stdout.split()]


def is_there(pid: int) -> bool:
    """A process that runs still."""
    state = Path(f"/proc/{pid}/stat")
    return state.exists() and state.read_text(encoding="utf-8").rsplit(")", 1)[1].split()[0] not in ("Z", "X")


def busy(tmp_path: Path) -> tuple[Served, list[int], list[socket.socket]]:
    """A server in the middle of a long search, with two pages that listen for changes."""
    served = serve(tmp_path)
    served.job("large", LARGE)
    port = int(served.url.rsplit(":", 1)[1])
    lines = []
    for path in ("views/roof", "changes", "changes"):
        line = socket.create_connection(("127.0.0.1", port))
        line.sendall(f"GET /api/jobs/large/{path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode())
        assert line.recv(12) == b"HTTP/1.1 200"
        lines.append(line)
    return served, children(served.process.pid), lines


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="processes are looked up in /proc")
@pytest.mark.parametrize("way", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_a_busy_server_ends_with_all_that_it_began(tmp_path: Path, way: signal.Signals) -> None:
    """Ctrl+C, an end from outside, a hard one: no process is left."""
    served, begun, lines = busy(tmp_path)
    assert len(begun) == 1
    served.process.send_signal(way)
    served.process.wait(timeout=SECONDS)
    until = time.monotonic() + SECONDS
    while any(map(is_there, begun)) and time.monotonic() < until:
        time.sleep(0.1)
    assert not any(map(is_there, begun))
    for line in lines:
        line.close()
    served.end()


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--address", "0.0.0.0"], "this machine's own address"),  # it is refused
        (["--address", "192.168.1.7"], "this machine's own address"),
        (["--address", "evil.example"], "this machine's own address"),
        (["--port", "TAKEN"], "a port that is free"),
    ],
)
def test_what_can_t_be_served_is_told(tmp_path: Path, options: list[str], words: str) -> None:
    """An address of others, a port that is taken: one fault in words, and no server."""
    with socket.create_server(("127.0.0.1", 0)) as taken:
        given = [str(taken.getsockname()[1]) if word == "TAKEN" else word for word in options]
        command = [sys.executable, "-c", START, "serve", str(tmp_path), "--no-browser", *given]
        found = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert found.returncode != 0
    assert words in found.stdout + found.stderr
    assert "Traceback" not in found.stderr


def test_missing_packages_are_told(tmp_path: Path) -> None:
    """Without the packages of the workspace: which, and how they are had."""
    without = "import sys; sys.modules['fastapi'] = None; " + START
    command = [sys.executable, "-c", without, "serve", str(tmp_path), "--no-browser"]
    found = subprocess.run(command, capture_output=True, text=True, timeout=60, check=False)
    assert found.returncode != 0
    assert "lapwright[workspace]" in found.stdout + found.stderr
    assert "Traceback" not in found.stderr


def test_changes_are_told_while_the_file_goes_and_comes(tmp_path: Path) -> None:
    """The line holds when the job file is taken away, and tells when it is back."""
    served = serve(tmp_path)
    path = served.job("comes", SMALL)
    try:
        with urllib.request.urlopen(f"{served.url}/api/jobs/comes/changes", timeout=30) as line:
            first = line.readline()
            path.unlink()
            gone = [line.readline(), line.readline()][1]
            path.write_text(SMALL, encoding="utf-8")
            back = [line.readline(), line.readline()][1]
        assert gone == b'data: {"digest": ""}\n'
        assert back == first
    finally:
        served.end()
