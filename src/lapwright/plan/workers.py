"""A second pair of hands: one more process that reads the weather while the roof is laid out, then makes files.

Loading the weather libraries takes longer than laying out a roof, and this machine has a second core.  What is asked
and answered are plain values, pickled over pipes; results do not depend on who made them.  Where no second process can
be started the same calls are made here.
"""

from __future__ import annotations

import copyreg
import json
import pickle
import struct
import subprocess
import sys
from collections import deque
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, field
from importlib import import_module
from types import MappingProxyType, TracebackType
from typing import IO, Any

from lapwright.faults import Refused

LENGTH = struct.Struct("<Q")
START = (
    "import sys, json; sys.path[:] = json.loads(sys.argv[1]); "
    "from lapwright.plan.workers import serve; serve(*json.loads(sys.argv[2]))"
)

# What takes long to load: for the weather, before it is asked for; for drawings and files, once the weather is told.
FIRST: Sequence[str] = ("pvlib.iotools", "lapwright.plan.hourpart")
NEXT: Sequence[str] = (
    "lapwright.packet.plates",
    "ezdxf.filemanagement",
    "xlsxwriter",
    "lapwright.packet.xlsx",
    "lapwright.packet.planjson",
)


@dataclass(slots=True)
class Promise:
    """An answer to come; `ask` it once."""

    ask: Callable[[], Any]


@dataclass(slots=True)
class SecondHands:
    """One more process; answers come in the order asked.

    with SecondHands() as hands:
        promise = hands.call("lapwright.plan.hourpart", "judged", ask)
        ...
        hours = promise.ask()
    """

    process: subprocess.Popen[bytes] | None = None
    waiting: int = field(default=0)
    loads: tuple[Sequence[str], Sequence[str]] = field(default_factory=lambda: (FIRST, NEXT))

    def __enter__(self) -> SecondHands:
        """Start the process."""
        self.start()
        return self

    def start(self) -> None:
        """Start a process; where none can be started, calls are made here."""
        path = json.dumps(sys.path)
        try:
            self.process = subprocess.Popen(  # noqa: S603  # this very Python, words of our own
                [sys.executable, "-c", START, path, json.dumps(self.loads)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
            )
        except OSError:
            self.process = None

    def renew(self) -> None:
        """Go on with a new process that has loaded what drawings and files need, and nothing else.

        The weather libraries take some 100 MB, and a process that has loaded them does not give it back.
        """
        if self.process is None or self.waiting:
            return
        self.end()
        self.loads = (NEXT, ())
        self.start()

    def __exit__(
        self, kind: type[BaseException] | None, value: BaseException | None, trace: TracebackType | None
    ) -> None:
        """End the process."""
        self.end()

    def end(self) -> None:
        """End the process, if there is one."""
        if self.process is None:
            return
        self.process.kill()  # it holds nothing that is not answered yet
        for pipe in (self.process.stdin, self.process.stdout):
            if pipe is not None:
                pipe.close()
        self.process.wait()
        self.process = None

    def call(self, module: str, function: str, *arguments: object) -> Promise:
        """Ask for a function's answer; it is worked on meanwhile.

        Raises, when asked: Refused where the function refused its input.
        """
        process = self.process
        if process is None or process.stdin is None or process.stdout is None or self.waiting:
            return Promise(lambda: getattr(import_module(module), function)(*arguments))
        try:
            send(process.stdin, (module, function, arguments))
        except OSError:
            return Promise(lambda: getattr(import_module(module), function)(*arguments))
        self.waiting += 1
        return Promise(lambda: self.answer(module, function, arguments))

    def answer(self, module: str, function: str, arguments: tuple[object, ...]) -> Any:  # noqa: ANN401  # whatever was asked
        """The next answer; made here where the process ended without one."""
        self.waiting -= 1
        process = self.process
        found = receive(process.stdout) if process is not None and process.stdout is not None else None
        if found is None:
            return getattr(import_module(module), function)(*arguments)
        kind, value = found
        if kind == "refused":
            raise Refused(value)
        return value


def send(pipe: IO[bytes], value: object) -> None:
    """One value through a pipe."""
    copyreg.pickle(MappingProxyType, plain_mapping)
    data = pickle.dumps(value, protocol=pickle.HIGHEST_PROTOCOL)
    pipe.write(LENGTH.pack(len(data)))
    pipe.write(data)
    pipe.flush()


def plain_mapping(mapping: MappingProxyType[Any, Any]) -> tuple[Callable[..., Any], tuple[dict[Any, Any]]]:
    """How a read-only mapping travels: as a plain one, made read-only again on arrival."""
    return (read_only, (dict(mapping),))


def read_only(mapping: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    """A mapping that can't be changed."""
    return MappingProxyType(mapping)


def receive(pipe: IO[bytes]) -> Any:  # noqa: ANN401  # whatever was sent
    """One value from a pipe; None at its end."""
    head = pipe.read(LENGTH.size)
    if len(head) < LENGTH.size:
        return None
    data = pipe.read(LENGTH.unpack(head)[0])
    return pickle.loads(data)  # noqa: S301  # from our own process


def each_by_itself(module: str, function: str, asked: Sequence[object], *, at_once: int = 2) -> list[Any]:
    """A function's answer to each of what is asked, in order, every one by a process that ends with it."""
    found: list[Any] = []
    with ExitStack() as stack:
        working: deque[tuple[SecondHands, Promise]] = deque()
        for one in asked:
            if len(working) == at_once:
                hands, promise = working.popleft()
                found.append(promise.ask())
                hands.end()
            hands = stack.enter_context(SecondHands(loads=((module,), ())))
            working.append((hands, hands.call(module, function, one)))
        found += [promise.ask() for _, promise in working]
    return found


def serve(first: Sequence[str], then: Sequence[str]) -> None:
    """Answer calls from standard input until it ends.  first, then: modules to load before and after the first one."""
    source, target = sys.stdin.buffer, sys.stdout.buffer
    load(first)
    while True:
        asked = receive(source)
        if asked is None:
            return
        module, function, arguments = asked
        try:
            result = ("done", getattr(import_module(module), function)(*arguments))
        except Refused as refused:
            result = ("refused", refused.faults)
        try:
            send(target, result)
        except OSError:
            return
        load(then)


def load(modules: Sequence[str]) -> None:
    """Import modules ahead of their use; those that are there already cost nothing."""
    for module in modules:
        import_module(module)
