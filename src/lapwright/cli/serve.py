"""`lapwright serve`: the workspace in a browser, on this machine."""

from __future__ import annotations

import ipaddress
import os
import socket
import sys
import threading
import webbrowser
from contextlib import suppress
from pathlib import Path
from types import FrameType

from lapwright.cli.terminal import USED, refuse, say
from lapwright.faults import Fault, Refused

FIRST_PORT, TRIES = 8720, 20
OWN = ("127.0.0.1", "localhost")
MISSING = "fastapi, jinja2 and uvicorn: install lapwright with its workspace, `pip install 'lapwright[workspace]'`"


def serve(folder: Path, port: int | None, address: str, *, browser: bool) -> int:
    """Serve the jobs of a folder until interrupted; the exit status."""
    try:
        import uvicorn

        from lapwright.workspace.app import close, make_app
    except ModuleNotFoundError as missing:
        if missing.name is None or missing.name.startswith("lapwright"):
            raise
        return refuse(Refused([Fault("serve", 0, 0, "", f"no module {missing.name}", MISSING, "")]))
    try:
        check(folder, address)
        folder.mkdir(exist_ok=True)
        listener = listening(port)
    except Refused as refused:
        return refuse(refused)
    port = int(listener.getsockname()[1])
    url = f"http://127.0.0.1:{port}/"
    say(f"the jobs of {folder} are at {url} on this machine; Ctrl+C ends it")
    sys.stdout.flush()
    if browser:
        threading.Timer(0.5, webbrowser.open, (url,)).start()
    app = make_app(folder, port=port)
    config = uvicorn.Config(app, log_level="warning", lifespan="on", timeout_graceful_shutdown=2)

    class Server(uvicorn.Server):
        """One that lets go of whoever listens when it is to end."""

        def handle_exit(self, sig: int, frame: FrameType | None) -> None:
            """An interrupt, or an end from outside."""
            close(app)
            super().handle_exit(sig, frame)

    with suppress(KeyboardInterrupt):  # it has ended in order by then
        Server(config).run(sockets=[listener])
    return USED


def check(folder: Path, address: str) -> None:
    """The folder is there or can be made in one that is, and the address is this machine's own.

    Raises: Refused
    """
    faults = []
    if is_loopback(address) and address not in OWN:
        needs = "127.0.0.1, the one address that it listens at"
        faults.append(Fault("serve", 0, 0, "--address", address, needs, "--address 127.0.0.1"))
    elif not is_loopback(address):
        needs = "this machine's own address: there are no accounts yet, so nobody else may reach the jobs"
        faults.append(Fault("serve", 0, 0, "--address", address, needs, "--address 127.0.0.1"))
    if folder.exists() and not folder.is_dir():
        faults.append(Fault("serve", 0, 0, "DIR", str(folder), "a folder for the jobs, not a file", str(folder.parent)))
    elif not folder.exists() and not folder.absolute().parent.is_dir():
        needs = "a folder, or a new one in a folder that is there"
        faults.append(Fault("serve", 0, 0, "DIR", str(folder), needs, folder.name))
    if faults:
        raise Refused(faults)


def is_loopback(address: str) -> bool:
    """An address that only this machine reaches."""
    if address == "localhost":
        return True
    try:
        return ipaddress.ip_address(address).is_loopback
    except ValueError:
        return False


def listening(port: int | None) -> socket.socket:
    """A socket on this machine's own address, at the port asked or at the first free one.

    Raises: Refused where there is none
    """
    for each in [port] if port is not None else range(FIRST_PORT, FIRST_PORT + TRIES):
        listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name == "posix":  # elsewhere it would take the port of another
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind(("127.0.0.1", each))
            listener.listen(128)  # whoever asks before the server is ready waits for it
        except (OSError, OverflowError):
            listener.close()
            continue
        return listener
    read = str(port) if port is not None else f"{FIRST_PORT} to {FIRST_PORT + TRIES - 1}"
    raise Refused([Fault("serve", 0, 0, "--port", read, "a port that is free", "--port 0")])
