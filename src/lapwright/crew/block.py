"""What fits into one stretch of dry daylight: opened, based, capped and closed before it ends.

*Block*: a run of steps.  Its deck is accepted and primed as a whole; once the primer is dry the steps are laid one
after the other, then every lap on top is probed and the high side tied off.  The day ends at the last course edge
that can be reached; only where not even the next course can be finished does it end at an end lap within it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from math import dist

from lapwright.crew.doing import Lasts, done, lasting, passed, whole_minutes
from lapwright.crew.pace import Work
from lapwright.crew.shift import Part, Shift
from lapwright.crew.steps import Step


@dataclass(frozen=True, slots=True)
class Job:
    """What stays the same over the walk: the steps, how long each piece of work lasts, the rates [SI], priming."""

    steps: Sequence[Step]
    lasts_of: Callable[[Work], Lasts]
    rates: Mapping[str, float]
    primes: bool


@dataclass(frozen=True, slots=True)
class Placing:
    """Work with its place in the day.  work: the one thing put down; None for work on the day as a whole."""

    what: str
    ids: tuple[str, ...]
    parts: tuple[Part, ...]
    work: Work | None = None


@dataclass(frozen=True, slots=True)
class Opening:
    """How a stretch begins: set-up from the crew's coming on and drying in the stretch [min]; ids of what is dried.

    is_first: the set-up is this stretch's; a later one of the same day finds it done.
    """

    set_up_min: float
    dry_min: float
    dried: tuple[str, ...] = ()
    is_first: bool = True


@dataclass(slots=True)
class Filling:
    """A stretch being filled from its begin on: `at` is the next free minute, `limit` its end.

    primed: from when on the primer is dry [min].
    """

    shift: Shift
    at: float
    limit: float
    primed: float = 0.0
    placings: list[Placing] = field(default_factory=list)

    def add(self, what: str, ids: tuple[str, ...], parts: tuple[Part, ...] | None, work: Work | None = None) -> bool:
        """Note parts that fit; False where they do not."""
        if parts is None:
            return False
        if parts:
            self.placings.append(Placing(what, ids, parts, work))
            self.at = parts[-1].end
        return True

    def lay(self, work: Work, lasts: Lasts) -> bool:
        """Put down one piece of work."""
        return self.add(work.what, (work.id,), done(self.shift, work.kind, self.at, self.limit, lasts), work)

    def pass_over(self, what: str, ids: tuple[str, ...], person_min: float) -> bool:
        """Do work that any dry minute is fit for."""
        return self.add(what, ids, passed(self.shift, self.at, self.limit, person_min))

    def keep(self, what: str, ids: tuple[str, ...], minutes: float) -> bool:
        """Do work of a fixed length."""
        return self.add(what, ids, lasting(self.shift, self.at, self.limit, minutes))


def furthest(
    job: Job, shift: Shift, stretch: tuple[float, float], at: int, opening: Opening
) -> tuple[int, tuple[Placing, ...]]:
    """How many steps are done when the stretch ends, and what is done in it; `at` and nothing where no block fits.

    Ends at the last course edge that can be reached, or end lap of a long course; where there is none, at any piece.
    Source: common practice, no source
    Checked: tests/crew/test_crew_block.py
    """
    ahead = range(at, len(job.steps))
    found = furthest_of(job, shift, stretch, (at, opening), (k + 1 for k in ahead if job.steps[k].may_end))
    if found[0] > at or not ahead:
        return found
    first_edge = next((k for k in ahead if job.steps[k].may_end), at)
    return furthest_of(job, shift, stretch, (at, opening), range(at + 1, first_edge + 1))


def furthest_of(
    job: Job, shift: Shift, stretch: tuple[float, float], begin: tuple[int, Opening], ends: Iterable[int]
) -> tuple[int, tuple[Placing, ...]]:
    """The last of the ends, which rise, that can be reached and closed."""
    at, opening = begin
    best: tuple[int, tuple[Placing, ...]] = (at, ())
    for end in ends:
        filling = Filling(shift, shift.begin, stretch[1])
        if not fill(job, filling, stretch[0], job.steps[at:end], opening):
            break
        if close(job, filling, job.steps[at:end]):
            best = (end, tuple(filling.placings))
    return best


def fill(job: Job, filling: Filling, begin: float, steps: Sequence[Step], opening: Opening) -> bool:
    """Everything of a block but its closing; False where it does not fit before the stretch ends."""
    if not filling.keep("set-up", (), opening.set_up_min):
        return False
    if not opening.is_first:
        filling.placings.clear()
    filling.at = max(filling.at, begin)
    if not filling.keep("dry and measure", opening.dried, opening.dry_min):
        return False
    if not open_deck(job, filling, steps):
        return False
    for step in steps:
        if step.work.opened > 0.0:
            filling.at = max(filling.at, filling.primed)
        if not filling.lay(step.work, job.lasts_of(step.work)):
            return False
    return True


def open_deck(job: Job, filling: Filling, steps: Sequence[Step]) -> bool:
    """Accept and prime the deck that the block covers; its base waits until the primer is dry."""
    opened = [step.work for step in steps if step.work.opened > 0.0]
    area = sum(work.opened for work in opened)
    if area <= 0.0:
        return True
    ids = tuple(work.id for work in opened)
    if not filling.pass_over("accept deck", ids, area / job.rates["accept_deck"] / 60.0):
        return False
    if not job.primes:
        return True
    prime = Work(f"prime {ids[0]} to {ids[-1]}", "prime", "primer", area / job.rates["primer"])
    parts = done(filling.shift, "primer", filling.at, filling.limit, job.lasts_of(prime))
    if not filling.add("prime", ids, parts):
        return False
    filling.primed = whole_minutes(filling.at + job.rates["primer_dry"] / 60.0)
    return True


def close(job: Job, filling: Filling, steps: Sequence[Step]) -> bool:
    """Probe every lap on top and tie off the high side; False where that does not fit before the stretch ends."""
    probed = [step.work for step in steps if step.work.probe > 0.0]
    length = sum(work.probe for work in probed)
    laps = tuple(lap for work in probed for lap in work.laps)
    if length > 0.0 and not filling.pass_over("probe laps", laps, length / job.rates["probe"] / 60.0):
        return False
    line = sum(dist(*segment) for segment in steps[-1].tie_off)
    return line <= 0.0 or filling.pass_over("tie-off", (), line / job.rates["tie_off"] / 60.0)
