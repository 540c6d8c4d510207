"""The layouts under the aims that were not chosen, of which only the counts are kept.

Another process makes them, save on a small job: there the search for one aim is the search for all of them, and
this process remembers it.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass, field, replace

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.layout.choices import choice_of, in_order
from lapwright.layout.cost import AIMS, Costs
from lapwright.layout.courses import Conflict
from lapwright.layout.place import make_layout
from lapwright.layout.values import Choice, Weighed
from lapwright.layout.ways import ALL_AIMS
from lapwright.plan.workers import Promise, SecondHands
from lapwright.roof.values import Area

Tell = Callable[[str], None]
SMALL = ALL_AIMS * 3 // 4  # courses up to which a job is small: what goes through the roof makes more parts of them
LARGE = 2000  # pieces from which each layout is told about, since it takes its time


@dataclass(frozen=True, slots=True)
class ChoiceAsk:
    """What a layout is made from.  grid: step that rips are read to [ticks]."""

    areas: tuple[Area, ...]
    assembly: Assembly
    rules: Rules
    grid: int
    costs: Costs


def choice_under(ask: ChoiceAsk, aim: str) -> Choice:
    """What the layout under an aim counts; nothing where its end laps find no place."""
    try:
        layout = make_layout(ask.areas, ask.assembly, ask.rules, grid=ask.grid, aim=aim, costs=ask.costs)
    except Conflict:
        return Choice(aim)
    return choice_of(layout, aim, {ply.sheet.name: ply.sheet for ply in ask.assembly.plies})


@dataclass(slots=True)
class OtherAims:
    """The aims that were not chosen, laid out one after the other while the plan goes on."""

    hands: SecondHands
    ask: ChoiceAsk
    left: list[str]
    found: list[Choice] = field(default_factory=list)
    promise: Promise | None = None

    def go_on(self, tell: Tell | None = None) -> bool:
        """Takes the answer asked for and asks for the next one; False once all are here.  tell: about each answer."""
        if self.promise is not None:
            choice: Choice = self.promise.ask()
            self.found.append(choice)
            if tell is not None:
                tell(f"laid out for {choice.aim} too, to compare: {sum(choice.rolls.values())} rolls")
        self.promise = self.hands.call(__name__, "choice_under", self.ask, self.left.pop(0)) if self.left else None
        return self.promise is not None

    def weighed(self, own: Weighed, tell: Tell | None = None) -> Weighed:
        """What a layout was weighed by, with every aim; waits for those that are not here yet."""
        while self.go_on(tell):
            pass
        return replace(own, choices=in_order((*own.choices, *self.found)))


@contextmanager
def other_aims(ask: ChoiceAsk, aim: str) -> Iterator[OtherAims]:
    """The other aims, the first of them begun; on a small job when they are asked for."""
    made: AbstractContextManager[SecondHands] = SecondHands(loads=((__name__,), ()))
    with nullcontext(SecondHands()) if is_small(ask) else made as hands:
        found = OtherAims(hands, ask, [other for other in AIMS if other != aim])
        found.go_on()
        yield found


def is_small(ask: ChoiceAsk) -> bool:
    """On every area all aims are gone after, whichever is asked for."""
    return all(courses_about(area, ask.assembly) <= SMALL for area in ask.areas)


def courses_about(area: Area, assembly: Assembly) -> int:
    """Courses of all plies over an area, openings left out."""
    east, north = area.falls
    along = [x * east + y * north for x, y in area.outline]
    deep = max(along) - min(along)
    pitches = [ply.sheet.width_ticks - ply.sheet.side_lap_ticks for ply in assembly.plies]
    return sum(math.ceil(deep / pitch) for pitch in pitches)
