"""The whole job: rooms one after another, then every file as bytes, then the folder at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from lapwright.faults import Mended, Refused
from lapwright.hours.values import HEAT, WARM, HourTable
from lapwright.job.models import Job
from lapwright.layout.choices import weigh
from lapwright.layout.courses import Conflict
from lapwright.layout.place import make_layout
from lapwright.layout.values import Layout
from lapwright.packet.pages.choice import choice_lines
from lapwright.packet.values import Paper
from lapwright.plan.build import make_assembly, make_building, make_costs, make_head
from lapwright.plan.checks import make_checks
from lapwright.plan.choices import LARGE, ChoiceAsk, OtherAims, other_aims
from lapwright.plan.conflict import conflict_fault
from lapwright.plan.engineered import fastener_needs, make_engineered
from lapwright.plan.fieldfigures import with_figures
from lapwright.plan.fitness import Days, make_ask, make_days, stand_ins
from lapwright.plan.laidcheck import gave_way
from lapwright.plan.orders import make_order_lines, settings_of
from lapwright.plan.papers import ORDER, FixedPlates, Tell, fixed_plates, is_long, packet_files, some_days
from lapwright.plan.reading import read_job_file
from lapwright.plan.roofs import Roofs
from lapwright.plan.tools import with_tools
from lapwright.plan.workers import Promise, SecondHands, load
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Check

PACKET = ("typst", "lapwright.packet.pdf", "lapwright.packet.sheets.day", "shapely.ops")  # loaded while weather is read
NO_STORE = (
    "heat.no-store",
    "store is not given: some days need warm rolls, and nothing is said of how they are kept warm and brought up",
)
GRID_TICKS = {"us": 127, "metric": TICKS_PER_METRE // 1000}


@dataclass(frozen=True, slots=True)
class Plan:
    """A plan: the paper it is printed from, and what was mended on the way in."""

    paper: Paper
    files: Mapping[str, bytes] = field(repr=False)
    mended: tuple[Mended, ...] = ()

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every check, in the order printed."""
        return self.paper.checks

    @property
    def warnings(self) -> tuple[tuple[str, str], ...]:
        """What the user should know besides."""
        return self.paper.warnings

    @property
    def choices(self) -> tuple[str, ...]:
        """The aims side by side, as lines of text."""
        return tuple(choice_lines(self.paper))

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the files, in the order written."""
        return (*self.files, "manifest.json")


def make_plan(path: Path, out: Path, *, tell: Tell, hands: SecondHands) -> Plan:
    """The plan of a job file.

    out: where it is to be written; looked at before the work, nothing is written here.
    tell: called with a line of words as each step is done.  hands: a second process, or none.
    Raises: Refused with every fault of the input, or where the folder holds somebody else's file of such a name.
    """
    from lapwright.packet.write import refuse_taken

    job, roofs = read_job_file(path)
    refuse_taken(out, ORDER)
    tell(f"job file read: {len(roofs.areas)} areas, {len(job.assembly.plies)} plies")
    weather = hands.call(
        "lapwright.plan.hourpart", "judged", make_ask(job, path.parent, roofs.areas, make_assembly(job))
    )
    with other_aims(choice_ask(job, roofs.areas), job.layout.aim) as others:
        laid = lay_paper(job, roofs, path)
        tell(laid_words(laid))
        about = tell if len(laid.layout.pieces) >= LARGE else None
        others.go_on(about)
        fixed = fixed_plates(laid)
        load(PACKET if job.store is None else (*PACKET, "lapwright.plan.warmth"))
        tell("plans and details drawn")
        planned, crew_checks = plan_days(job, laid, weather, tell)
        if is_long(planned.days):
            hands.renew()
        planned = with_choices(planned, others, about)
    return print_plan(job, planned, crew_checks, fixed, tell=tell, hands=hands)


def with_choices(paper: Paper, others: OtherAims, tell: Tell | None) -> Paper:
    """A paper with what the other aims come to."""
    return replace(paper, weighed=None if paper.weighed is None else others.weighed(paper.weighed, tell))


def print_plan(
    job: Job,
    planned: Paper,
    crew_checks: tuple[Check, ...],
    fixed: FixedPlates,
    *,
    tell: Tell,
    hands: SecondHands,
) -> Plan:
    """The files of what is planned, checked before."""
    odd = hands.call("lapwright.plan.papers", "some_days", planned, 1)
    paper = with_figures(job, make_checks(job, planned, make_building(job), crew_checks))
    tell(f"checked: {len(paper.checks)} checks")
    days = {**some_days(paper, 0), **odd.ask()}
    tell("days drawn")
    others = hands.call("lapwright.plan.papers", "other_files", paper)
    files: dict[str, bytes] = {}

    def make_room() -> None:
        """The second process ends before others set a large packet, so that they do not stand in memory together."""
        files.update(others.ask())
        hands.end()

    files.update(packet_files(paper, fixed, days, make_room))
    if len(files) < len(ORDER):
        files.update(others.ask())
    tell("packet set, other files made")
    return Plan(paper, {name: files[name] for name in ORDER}, paper.mended)


def lay_paper(job: Job, roofs: Roofs, path: Path) -> Paper:
    """What the packet prints as far as it hangs on the roof alone."""
    return laid_paper(job, roofs, path, lay_out(job, roofs.areas))


def laid_paper(job: Job, roofs: Roofs, path: Path, layout: Layout) -> Paper:
    """What the packet prints of a layout."""
    assembly = make_assembly(job)
    sheets = {ply.sheet.name: ply.sheet for ply in assembly.plies}
    paper = Paper(
        head=make_head(job, path.name),
        areas=roofs.areas,
        closures=roofs.closures,
        assembly=assembly,
        sheets=sheets,
        rules=job.rules,
        layout=layout,
        order=(),
        hours=None,
        crew=None,
        days=(),
        checks=(),
        warnings=(*gave_way(job.rules), *layout.warnings),
        mended=roofs.mended,
        settings=settings_of(job),
        weighed=weigh(layout, job.layout.aim, make_costs(job), sheets),
    )
    return replace(paper, engineered=make_engineered(job, paper))


def laid_words(laid: Paper) -> str:
    """What was laid out, counted."""
    layout = laid.layout
    return f"laid out: {len(layout.pieces)} pieces, {len(layout.laps)} laps, {len(layout.rolls)} rolls"


def plan_days(job: Job, laid: Paper, weather: Promise, tell: Tell) -> tuple[Paper, tuple[Check, ...]]:
    """What is laid with hours, days and order put to it, and the checks of the crew's days."""
    found: tuple[HourTable, tuple[Mended, ...]] | None = weather.ask()
    hours, mended = found if found is not None else (None, ())
    if hours is not None:
        tell(f"hours judged: {hours.weather.name}, {len(hours.weather.start)} hours")
    areas, layout, assembly = laid.areas, laid.layout, laid.assembly
    days = make_days(job, hours, layout, areas, assembly)
    tell(f"crew days: {len(days.days)}")
    planned = replace(
        laid,
        order=make_order_lines(
            job, layout, areas, assembly, cold=is_cold(hours, days), fastened=fastener_needs(job, laid)
        ),
        hours=hours,
        crew=days.crew,
        days=days.days,
        warnings=(*laid.warnings, *stand_ins(job, areas, hours, days)),
        mended=(*laid.mended, *mended),
    )
    return warmed(job, first_morning(job, with_tools(job, planned)), days.checks)


def first_morning(job: Job, paper: Paper) -> Paper:
    """A paper with the morning of its first day; none where that has no date."""
    if not paper.days or paper.days[0].date is None:
        return paper
    from lapwright.plan.morning import with_morning  # loads scipy, which takes its time

    return with_morning(job, paper)


def warmed(job: Job, planned: Paper, checks: tuple[Check, ...]) -> tuple[Paper, tuple[Check, ...]]:
    """The paper with what it tells of warm rolls, and the checks with those of the store; without one a warning."""
    from lapwright.heat.warmchecks import warm_checks
    from lapwright.plan.colddays import is_cold_day

    if job.store is None:
        told = (NO_STORE,) if any(is_cold_day(day) for day in planned.days) else ()
        return replace(planned, warnings=(*planned.warnings, *told)), checks
    from lapwright.plan.warmth import make_setting, make_warmth, needs  # loads scipy, which takes its time

    setting = make_setting(job.store)
    warmth = make_warmth(planned, setting)
    return replace(planned, warmth=warmth), (*checks, *warm_checks(setting, warmth, needs(job, planned.areas)))


def lay_out(job: Job, areas: tuple[Area, ...], *, patience: float = 1.0) -> Layout:
    """The layout of a job.

    patience: share of the usual search; every rule is kept whatever it is.
    Raises: Refused where its rules can't be met together.
    """
    ask = choice_ask(job, areas)
    try:
        return make_layout(
            areas, ask.assembly, ask.rules, grid=ask.grid, aim=job.layout.aim, costs=ask.costs, patience=patience
        )
    except Conflict as conflict:
        raise Refused([conflict_fault(job, conflict)]) from conflict


def choice_ask(job: Job, areas: tuple[Area, ...]) -> ChoiceAsk:
    """What the layout of a job is made from."""
    return ChoiceAsk(areas, make_assembly(job), job.rules, GRID_TICKS[job.units], make_costs(job))


def is_cold(hours: HourTable | None, days: Days) -> bool:
    """Some of the work falls into hours that ask for warm rolls or heat."""
    if hours is None:
        return False
    used = {index for day in days.days for index in day.hours if index >= 0}
    return any(int(states[index]) in (WARM, HEAT) for states in hours.states.values() for index in used)


def write_plan(plan: Plan, directory: Path) -> None:
    """Write a plan's files, the folder whole or left as it was.

    Raises: Refused where the folder can't take them.
    """
    from lapwright.packet.write import write_whole

    write_whole(directory, plan.files)
