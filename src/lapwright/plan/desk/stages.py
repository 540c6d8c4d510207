"""A job step by step, each step kept by what it hangs on, so that a changed price does not lay the roof anew.

text -> read -> laid (a first layout at once, then the whole search) -> hours -> planned -> checked.  A step asks for
those before it.  The layout and the hours are kept by the values that go into them, so that another text with the
same roof, or the same weather and sheets, finds them made; the rest is kept by the text.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from pathlib import Path
from typing import cast

from lapwright.faults import Mended
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.layout.choices import in_order
from lapwright.layout.cost import AIMS
from lapwright.layout.place import DRAFT
from lapwright.layout.values import Choice, Layout
from lapwright.packet.values import Paper
from lapwright.plan.build import make_assembly, make_building
from lapwright.plan.checks import make_checks
from lapwright.plan.choices import choice_under
from lapwright.plan.describe.apart import APART
from lapwright.plan.desk.beside import beside_it
from lapwright.plan.desk.keeping import Kept, made_from
from lapwright.plan.fitness import make_ask
from lapwright.plan.hourpart import judged
from lapwright.plan.make import choice_ask, laid_paper, laid_words, lay_out, plan_days
from lapwright.plan.reading import read_job_text
from lapwright.plan.roofs import Roofs
from lapwright.plan.workers import Promise
from lapwright.verdict import Check

Tell = Callable[[str], None]
FIRST = DRAFT  # share of the search that a first layout is laid with, while somebody waits


@dataclass(frozen=True, slots=True)
class JobAsk:
    """A job as it stands on the desk: the text, and the path of its file, beside which drawings are looked for."""

    text: str
    path: Path

    def key(self) -> tuple[object, ...]:
        """What its reading hangs on: itself, its name, and the files beside it that it names."""
        return (self.text, str(self.path), beside_it(self.text, self.path.parent))


@dataclass(slots=True)
class Stages:
    """What was made of jobs, kept.  One process holds it; nothing here is asked for by two at once."""

    reads: Kept = field(default_factory=lambda: Kept(16))
    layouts: Kept = field(default_factory=lambda: Kept(12))
    choices: Kept = field(default_factory=lambda: Kept(24))
    hours_made: Kept = field(default_factory=lambda: Kept(6))
    papers: Kept = field(default_factory=lambda: Kept(8))

    def read(self, ask: JobAsk) -> tuple[Job, Roofs]:
        """The job and its roof.

        Raises: Refused with every fault.
        """
        return cast("tuple[Job, Roofs]", self.reads.take(ask.key(), lambda: read_job_text(ask.text, ask.path, APART)))

    def layout(self, ask: JobAsk, *, patience: float = 1.0) -> Layout:
        """The layout; one of the whole search stands for a first one.

        Raises: Refused
        """
        job, roofs = self.read(ask)
        made = made_from(choice_ask(job, roofs.areas), job.layout.aim)
        whole = cast("Layout | None", self.layouts.find((made, 1.0)))
        if whole is not None:
            return whole
        return cast(Layout, self.layouts.take((made, patience), lambda: lay_out(job, roofs.areas, patience=patience)))

    def is_laid(self, ask: JobAsk) -> bool:
        """The whole search for this roof is done and kept.

        Raises: Refused
        """
        job, roofs = self.read(ask)
        return self.layouts.find((made_from(choice_ask(job, roofs.areas), job.layout.aim), 1.0)) is not None

    def laid(self, ask: JobAsk, *, patience: float = 1.0) -> Paper:
        """What hangs on the roof alone: layout, details, zones, water, staging.

        Raises: Refused
        """
        job, roofs = self.read(ask)
        layout = self.layout(ask, patience=patience)
        return cast(
            Paper,
            self.papers.take(("laid", id(layout), ask.key()), lambda: laid_paper(job, roofs, ask.path, layout)),
        )

    def hours(self, ask: JobAsk) -> tuple[HourTable, tuple[Mended, ...]] | None:
        """The hour table; None where the job names no weather.

        Raises: Refused where the weather can't be read.
        """
        job, roofs = self.read(ask)
        asked = make_ask(job, ask.path.parent, roofs.areas, make_assembly(job))
        key = made_from(asked, beside_it(ask.text, ask.path.parent) if asked.file else None)
        return cast("tuple[HourTable, tuple[Mended, ...]] | None", self.hours_made.take(key, lambda: judged(asked)))

    def planned(self, ask: JobAsk, tell: Tell) -> tuple[Paper, tuple[Check, ...]]:
        """Layout, hours, days, order, warm rolls and the morning, and the checks of the crew's days.

        Raises: Refused
        """
        job, _ = self.read(ask)

        def make() -> tuple[Paper, tuple[Check, ...]]:
            laid = self.laid(ask)
            tell(laid_words(laid))
            return plan_days(job, laid, Promise(lambda: self.hours(ask)), tell)

        return cast("tuple[Paper, tuple[Check, ...]]", self.papers.take(("planned", ask.key()), make))

    def checked(self, ask: JobAsk, tell: Tell) -> Paper:
        """Everything with its checks; of the other aims what is known so far.

        Raises: Refused
        """
        job, _ = self.read(ask)

        def make() -> Paper:
            planned, crew_checks = self.planned(ask, tell)
            paper = make_checks(job, planned, make_building(job), crew_checks)
            tell(f"checked: {len(paper.checks)} checks")
            return paper

        return cast(Paper, self.papers.take(("checked", ask.key()), make))

    def weighed(self, ask: JobAsk, tell: Tell) -> tuple[Choice, ...]:
        """What each aim comes to, the job's own first laid, then the others.

        Raises: Refused
        """
        job, roofs = self.read(ask)
        own = self.laid(ask).weighed
        asked = choice_ask(job, roofs.areas)
        found = list(own.choices) if own is not None else []
        for aim in AIMS:
            if aim != job.layout.aim:
                found.append(self.choices.take(made_from(asked, aim), partial(choice_under, asked, aim)))
                tell(f"laid out for {aim.replace('_', ' ')} too, to compare")
        return in_order(tuple(found))

    def whole(self, ask: JobAsk, tell: Tell) -> Paper:
        """The paper as the packet prints it, the other aims with it.

        Raises: Refused
        """
        paper = self.checked(ask, tell)
        if paper.weighed is None:
            return paper
        return replace(paper, weighed=replace(paper.weighed, choices=self.weighed(ask, tell)))
