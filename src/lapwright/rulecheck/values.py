"""What the rule checker finds, as plain values.

Answers, for any plan, "What goes where?" a second time: does what is drawn keep the rules?
"""

from __future__ import annotations

from dataclasses import dataclass

XY = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Violation:
    """One broken rule at one place.

    rule: its stable name; ids: the pieces, laps, rolls concerned; where: a plan point [m] to look at.
    read, needs: lengths [m], or text where the rule is not about a length; None where there is nothing to compare.
    text: what breaks, where, and the mend; `{read}` and `{needs}` stand for the lengths, which `say` writes in.
    """

    rule: str
    ids: tuple[str, ...]
    where: XY | None
    read: float | str | None
    needs: float | str | None
    text: str


class Unreadable(Exception):  # noqa: N818  # about the file that was given; it is told, not debugged
    """A plan that can't be judged: where in it, and what is needed there."""

    def __init__(self, path: str, needs: str) -> None:
        self.path = path
        self.needs = needs
        super().__init__(f"{path}: needs {needs}")
