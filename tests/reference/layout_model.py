"""A plain CP-SAT model of the layout: course lines, splits and rolls chosen freely under the rules.

It shares no line with the room that lays out.  It stands for "the best that anybody finds": what it finds is a plan
that can be laid, and what it proves holds for every plan whose joints lie on the cutting step from the left end of
their run, whose rips lie on the grid, whose sheets never lie three deep in a side or end lap, whose plies have at most
one course more than the fewest, and whose runs have at most `extra` pieces more than the fewest.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from layout_ask import AIMS, CourseGot, PieceGot, Plan, PlyAsk, RoofAsk, bands
from ortools.sat.python import cp_model


@dataclass(frozen=True)
class Answer:
    """What the solver found: the best plan, its worth under the aim, a bound on every plan's, and solver's seconds."""

    plan: Plan | None
    worth: int | None
    bound: int | None
    is_proven: bool
    seconds: float

    @property
    def gap(self) -> float:
        """How far the best found may be above the best there is, as a share of the bound."""
        if self.worth is None or not self.bound:
            return 0.0 if self.worth == self.bound else float("inf")
        return (self.worth - self.bound) / self.bound


@dataclass(frozen=True)
class Limit:
    """How long the solver may look: its own deterministic time; seconds by the clock for benchmarks only."""

    deterministic: float = 60.0
    workers: int = 1
    seconds: float | None = None


@dataclass
class CourseVar:
    """A course: is it there, its low and high edge, is it a full sheet below the top, run, slots for pieces."""

    there: Any
    low: Any
    high: Any
    left: Any
    right: Any
    slots: list[SlotVar]


@dataclass
class SlotVar:
    """Room for a piece: is there one, from, to, steps cut, is it a whole roll, is it a new length."""

    used: Any
    left: Any
    right: Any
    steps: Any
    whole: Any


class LayoutModel:
    """The model of one roof under one aim."""

    def __init__(self, roof: RoofAsk, aim: str, *, extra: int = 2, most_rolls: Mapping[str, int] | None = None) -> None:
        self.roof, self.rules, self.aim = roof, roof.rules, aim
        self.extra, self.most_rolls = extra, most_rolls or {}
        self.model = cp_model.CpModel()
        self.rolls: dict[str, list[Any]] = {}
        self.cut_from: dict[str, list[tuple[SlotVar, list[Any]]]] = {}
        self.courses = [self._courses(p) for p in range(len(roof.plies))]
        for p in range(len(roof.plies) - 1):
            self._offset(p)
            self._end_laps_between(p)
        for sheet in dict.fromkeys(ply.sheet for ply in roof.plies) if aim != "fewest_laps" else ():
            self._cut_rolls(sheet)
        self.worth = self._worth()
        self.model.minimize(self.worth)

    def _bool(self) -> Any:
        return self.model.new_bool_var("")

    def _int(self, low: int, high: int) -> Any:
        return self.model.new_int_var(low, high, "")

    # courses

    def _courses(self, p: int) -> list[CourseVar]:
        """The courses of a ply, each but the first one optional."""
        model, ply, rules = self.model, self.roof.plies[p], self.rules
        ground = bands(self.roof, ply)
        begins, ends = ground[0].low, ground[-1].high
        pitch = ply.width - ply.side_lap
        fewest = max(1, -(-(ends - begins - ply.side_lap) // pitch))
        widest = max(band.right for band in ground) - min(band.left for band in ground)
        found: list[CourseVar] = []
        for k in range(fewest + 1):
            there = self._bool()
            low, high = self._int(begins, ends), self._int(begins, ends)
            if k == 0:
                model.add(low == begins)
                model.add(there == 1)
            else:
                steps = self._int(0, (ends - begins) // rules.grid)
                model.add(low == begins + rules.grid * steps).only_enforce_if(there)
                model.add(low == ends).only_enforce_if(~there)
                model.add(high == ends).only_enforce_if(~there)
                model.add_implication(there, found[-1].there)
                # narrower than this a course would not reach over the lap line below it
                model.add(low <= ends - 1).only_enforce_if(there)
                if k < fewest:
                    model.add(there == 1)
            left = self._int(min(band.left for band in ground), max(band.right for band in ground))
            right = self._int(min(band.left for band in ground), max(band.right for band in ground))
            found.append(CourseVar(there, low, high, left, right, self._slots(ply, widest)))
        for k, course in enumerate(found):
            after = found[k + 1] if k + 1 < len(found) else None
            self._widths(ply, found, k, ends)
            self._run(ply, found, k)
            self._pieces(ply, course)
            if after is not None:
                self._apart(joints_of(course), joints_of(after), rules.stagger, [])
        return found

    def _widths(self, ply: PlyAsk, courses: Sequence[CourseVar], k: int, ends: int) -> None:
        """Width, side lap and exposed width of course k."""
        model, rules, course = self.model, self.rules, courses[k]
        is_cap = ply is self.roof.plies[-1]
        model.add(course.high - course.low <= ply.width).only_enforce_if(course.there)
        if k + 1 == len(courses):
            model.add(course.high == ends)
            self._shown(course, ends - course.low, [course.there], is_excused=k == 0 or (k == 1 and is_cap))
            return
        after = courses[k + 1]
        top = self._bool()
        model.add_bool_and(course.there, ~after.there).only_enforce_if(top)
        model.add_bool_or(~course.there, after.there, top)
        model.add(course.high == ends).only_enforce_if(top)
        model.add(course.high >= after.low + ply.side_lap).only_enforce_if(after.there)
        full = self._bool() if rules.wide_laps and not is_cap else None
        if is_cap and k == 0:
            model.add(course.high == course.low + ply.width).only_enforce_if(after.there)
        if full is None:
            model.add(course.high == after.low + ply.side_lap).only_enforce_if(after.there)
        else:
            model.add(course.high == course.low + ply.width).only_enforce_if(after.there, full)
            model.add(course.high == after.low + ply.side_lap).only_enforce_if(after.there, ~full)
        if k + 2 < len(courses):
            model.add(course.high <= courses[k + 2].low - 1).only_enforce_if(courses[k + 2].there)
        self._shown(course, after.low - course.low, [after.there], is_excused=False)
        self._shown(course, ends - course.low, [top], is_excused=k == 0 or (k == 1 and is_cap))

    def _shown(self, course: CourseVar, width: Any, when: list[Any], *, is_excused: bool) -> None:
        """A course shows at least the narrowest rip."""
        if not is_excused:
            self.model.add(width >= self.rules.narrowest).only_enforce_if(*when)

    def _run(self, ply: PlyAsk, courses: Sequence[CourseVar], k: int) -> None:
        """How far course k has to reach: as far as the ground does at the levels that only it lies on."""
        model, course = self.model, courses[k]
        ground = bands(self.roof, ply)
        low = courses[k - 1].high if k else course.low
        high = courses[k + 1].low if k + 1 < len(courses) else course.high
        choices: list[Any] = []
        spans: list[tuple[int, int]] = []
        for i in range(len(ground)):
            for j in range(i, len(ground)):
                chosen = self._bool()
                choices.append(chosen)
                model.add(low >= ground[i].low).only_enforce_if(chosen)
                model.add(low <= ground[i].high - 1).only_enforce_if(chosen)
                model.add(high >= ground[j].low + 1).only_enforce_if(chosen)
                model.add(high <= ground[j].high).only_enforce_if(chosen)
                spans.append((min(b.left for b in ground[i : j + 1]), max(b.right for b in ground[i : j + 1])))
        model.add(sum(choices) == course.there)
        start = min(band.left for band in ground)
        for end, ways in ((course.left, [a for a, _ in spans]), (course.right, [b for _, b in spans])):
            model.add(end == start + sum((way - start) * chosen for way, chosen in zip(ways, choices, strict=True)))

    # pieces

    def _slots(self, ply: PlyAsk, widest: int) -> list[SlotVar]:
        """As many slots as the widest run may take pieces."""
        longest = min(self.rules.longest, ply.length)
        fewest = max(1, -(-(widest - ply.end_lap) // (longest - ply.end_lap)))
        fitting = max(1, (widest + longest) // max(1, self.rules.shortest - ply.end_lap))
        count = min(fewest + self.extra, fitting)
        ground = bands(self.roof, ply)
        low, high = min(band.left for band in ground), max(band.right for band in ground)
        most = ply.length // self.rules.step
        return [
            SlotVar(self._bool(), self._int(low, high), self._int(low, high), self._int(0, most), self._bool())
            for _ in range(count)
        ]

    def _pieces(self, ply: PlyAsk, course: CourseVar) -> None:
        """The pieces of a course: end to end over its run with end laps, each of an allowed length."""
        model, rules, slots = self.model, self.rules, course.slots
        longest = min(rules.longest, ply.length)
        model.add(slots[0].used == course.there)
        model.add(slots[0].left == course.left)
        # follows from the rest, but tells the solver at once how much sheet a run takes
        laid = sum(slot.right - slot.left for slot in slots)
        model.add(laid >= course.right - course.left + ply.end_lap * sum(slot.used for slot in slots[1:]))
        is_short = self._bool()
        model.add(course.right - course.left <= rules.shortest - 1).only_enforce_if(is_short)
        for s, slot in enumerate(slots):
            after = slots[s + 1].used if s + 1 < len(slots) else None
            model.add(slot.right - slot.left <= longest)
            model.add(slot.right - slot.left >= rules.shortest).only_enforce_if(slot.used, ~is_short)
            model.add(rules.step * slot.steps >= slot.right - slot.left)
            model.add(rules.step * slot.steps <= slot.right - slot.left + rules.step - 1)
            model.add(slot.left == slot.right).only_enforce_if(~slot.used)
            model.add(slot.left == course.right).only_enforce_if(~slot.used)
            last = self._bool()
            model.add_bool_and(slot.used, *([~after] if after is not None else [])).only_enforce_if(last)
            model.add_bool_or(~slot.used, last, *([after] if after is not None else []))
            model.add(slot.right == course.right).only_enforce_if(last)
            model.add_implication(slot.whole, slot.used)
            model.add(rules.step * slot.steps == ply.length).only_enforce_if(slot.whole)
            if s:
                before = slots[s - 1]
                model.add_implication(slot.used, before.used)
                place = self._int(0, longest * len(slots) // rules.step)
                model.add(slot.left == course.left + rules.step * place).only_enforce_if(slot.used)
                model.add(before.right >= slot.left + ply.end_lap).only_enforce_if(slot.used)
                model.add(before.left + rules.step <= slot.left).only_enforce_if(slot.used)
                model.add(before.right + 1 <= slot.right).only_enforce_if(slot.used)
                if s > 1:
                    model.add(slots[s - 2].right + rules.step <= slot.left).only_enforce_if(slot.used)
                # whole steps between a piece's ends but for the last piece
                whole = self._int(0, longest // rules.step)
                model.add(before.right - before.left == rules.step * whole).only_enforce_if(slot.used)

    def _apart(self, ones: Sequence[SlotVar], others: Sequence[SlotVar], least: int, unless: Sequence[Any]) -> None:
        """Joints of two courses at least `least` apart, unless one of the given literals holds."""
        for one in ones:
            for other in others:
                before, after = self._bool(), self._bool()
                self.model.add(one.left + least <= other.left).only_enforce_if(before)
                self.model.add(other.left + least <= one.left).only_enforce_if(after)
                self.model.add_bool_or(~one.used, ~other.used, before, after, *unless)

    # between plies

    def _offset(self, p: int) -> None:
        """Side laps of two neighbouring plies keep their distance, the lesser one beside a ripped top course."""
        model, rules = self.model, self.rules
        lines = [self.courses[q][1:] for q in (p, p + 1)]
        rips = [self._rips(q) for q in (p, p + 1)]
        eased: list[list[list[Any]]] = [[[rip] for rip in of_ply] for of_ply in rips]
        for mine, other in ((0, 1), (1, 0)):
            for rip, line in zip(rips[other], lines[other], strict=True):
                for i, own in enumerate(lines[mine]):
                    nearest = self._nearest(own, lines[mine], rip, line)
                    eased[mine][i].append(nearest)
        for i, one in enumerate(lines[0]):
            for j, other_line in enumerate(lines[1]):
                ease = self._bool()
                model.add_bool_or(*eased[0][i], *eased[1][j]).only_enforce_if(ease)
                above = self._bool()
                for sign, low, high in ((above, one, other_line), (~above, other_line, one)):
                    both = [sign, one.there, other_line.there]
                    model.add(high.low - low.low >= rules.ply_offset).only_enforce_if(*both, ~ease)
                    model.add(high.low - low.low >= rules.ply_offset_at_rip).only_enforce_if(*both)

    def _rips(self, p: int) -> list[Any]:
        """For each course after the first: it may be taken for a top course on a ripped one."""
        model, courses, width = self.model, self.courses[p], self.roof.plies[p].width
        found = []
        for k in range(1, len(courses)):
            rip = self._bool()
            found.append(rip)
            if k == 1:
                model.add(rip == 0)  # the course below it would be the first
                continue
            model.add_implication(rip, courses[k].there)
            if k + 1 < len(courses):
                model.add_implication(rip, ~courses[k + 1].there)
            model.add(courses[k - 1].high - courses[k - 1].low <= width - 1).only_enforce_if(rip)
        return found

    def _nearest(self, own: CourseVar, all_own: Sequence[CourseVar], rip: Any, line: CourseVar) -> Any:
        """A literal that may hold where `own` is the line of its ply next to a rip line of the other."""
        model, nearest = self.model, self._bool()
        model.add_implication(nearest, rip)
        model.add_implication(nearest, own.there)
        reach = max(ply.width for ply in self.roof.plies) * (len(all_own) + 3) * 2
        mine = self._int(0, reach)
        model.add_abs_equality(mine, own.low - line.low)
        for other in all_own:
            if other is not own:
                farther = self._int(0, reach)
                model.add_abs_equality(farther, other.low - line.low)
                model.add(mine + 1 <= farther).only_enforce_if(nearest, other.there)
        return nearest

    def _end_laps_between(self, p: int) -> None:
        """End laps of a ply keep away from those of the ply under it where their courses lie on one another."""
        for one in self.courses[p]:
            for two in self.courses[p + 1]:
                below, above = self._bool(), self._bool()
                self.model.add(one.high <= two.low).only_enforce_if(below)
                self.model.add(two.high <= one.low).only_enforce_if(above)
                unless = [below, above]
                self._apart(joints_of(one), joints_of(two), self.rules.ply_stagger, unless)

    # rolls

    def _slots_of(self, sheet: str) -> Iterator[SlotVar]:
        for ply, courses in zip(self.roof.plies, self.courses, strict=True):
            if ply.sheet == sheet:
                yield from (slot for course in courses for slot in course.slots)

    def _cut_rolls(self, sheet: str) -> None:
        """Each piece is cut from one roll, no roll is overdrawn; roll numbers begin with the pieces in order."""
        model = self.model
        length = next(ply.length for ply in self.roof.plies if ply.sheet == sheet) // self.rules.step
        slots = list(self._slots_of(sheet))
        count = min(len(slots), self.most_rolls.get(sheet, len(slots)))
        opened = [self._bool() for _ in range(count)]
        for one, two in pairwise(opened):
            model.add_implication(two, one)
        loads: list[list[Any]] = [[] for _ in opened]
        table = []
        for i, slot in enumerate(slots):
            choices = [self._bool() for _ in opened[: i + 1]]
            model.add(sum(choices) == slot.used)
            shares = []
            for r, chosen in enumerate(choices):
                share = self._int(0, length)
                model.add(share == slot.steps).only_enforce_if(chosen)
                model.add(share == 0).only_enforce_if(~chosen)
                model.add_implication(chosen, opened[r])
                loads[r].append(share)
                shares.append(share)
            model.add(sum(shares) == slot.steps)
            table.append((slot, choices))
        for load, roll in zip(loads, opened, strict=True):
            model.add(sum(load) <= length * roll)
        self.rolls[sheet], self.cut_from[sheet] = opened, table

    # worth

    def _worth(self) -> Any:
        """What is to be as little as can be."""
        if self.aim == "fewest_rolls":
            return sum(roll for opened in self.rolls.values() for roll in opened)
        laps = sum(slot.used for courses in self.courses for course in courses for slot in joints_of(course))
        if self.aim == "fewest_laps":
            return laps
        costs, prices = self.roof.costs, {ply.sheet: ply.price for ply in self.roof.plies}
        terms = [prices[sheet] * roll for sheet, opened in self.rolls.items() for roll in opened]
        terms.append(costs.end_lap * laps)
        for ply, courses in zip(self.roof.plies, self.courses, strict=True):
            slots = [slot for course in courses for slot in course.slots]
            terms += [costs.cut * (slot.used - slot.whole) for slot in slots]
            terms += [costs.tjoint * joint for joint in self._tjoints(courses)]
            terms += [costs.length * new for new in self._new_lengths(slots)]
            terms += [costs.rip * new for new in self._new_rips(ply, courses)]
        return sum(terms)

    def _tjoints(self, courses: Sequence[CourseVar]) -> Iterator[Any]:
        """Literals that hold where an end lap meets a side lap above or below it."""
        for k, course in enumerate(courses):
            for near in [courses[i] for i in (k - 1, k + 1) if 0 <= i < len(courses)]:
                for slot in joints_of(course):
                    meets, before, behind = self._bool(), self._bool(), self._bool()
                    self.model.add(slot.left <= near.left - 1).only_enforce_if(before)
                    self.model.add(slot.left >= near.right).only_enforce_if(behind)
                    self.model.add_bool_or(meets, before, behind, ~slot.used, ~near.there)
                    yield meets

    def _new_lengths(self, slots: Sequence[SlotVar]) -> Iterator[Any]:
        """Literals that hold where a cut length has not come before in the ply."""
        for i, slot in enumerate(slots):
            new, same = self._bool(), []
            for other in slots[:i]:
                alike = self._bool()
                self.model.add(slot.steps == other.steps).only_enforce_if(alike)
                self.model.add_implication(alike, other.used)
                same.append(alike)
            self.model.add_bool_or(new, slot.whole, ~slot.used, *same)
            yield new

    def _new_rips(self, ply: PlyAsk, courses: Sequence[CourseVar]) -> Iterator[Any]:
        """Literals that hold where a course is narrower than a sheet, of a width that has not come before."""
        for k, course in enumerate(courses):
            new, full, same = self._bool(), self._bool(), []
            self.model.add(course.high - course.low == ply.width).only_enforce_if(full)
            for other in courses[:k]:
                alike = self._bool()
                self.model.add(course.high - course.low == other.high - other.low).only_enforce_if(alike)
                same.append(alike)
            self.model.add_bool_or(new, full, ~course.there, *same)
            yield new

    # hints and answers

    def fix(self, plan: Plan) -> None:
        """Hold the model to a plan, to fill in everything that follows from it."""
        numbers: dict[str, dict[int, int]] = {}
        for ply, courses, got in zip(self.roof.plies, self.courses, plan, strict=True):
            choices_of = {id(slot): choices for slot, choices in self.cut_from.get(ply.sheet, [])}
            for k, course in enumerate(courses):
                self.model.add(course.there == (k < len(got)))
                if k < len(got):
                    self.model.add(course.low == got[k].low)
                    self.model.add(course.high == got[k].high)
                    self._fix_pieces(course, got[k])
                    for slot, piece in zip(course.slots, got[k].pieces, strict=False):
                        known = numbers.setdefault(ply.sheet, {})
                        number = known.setdefault(piece.roll, len(known))
                        if choices_of:
                            self.model.add(choices_of[id(slot)][number] == 1)

    def _fix_pieces(self, course: CourseVar, got: CourseGot) -> None:
        for s, slot in enumerate(course.slots):
            self.model.add(slot.used == (s < len(got.pieces)))
            if s < len(got.pieces):
                self.model.add(slot.left == got.pieces[s].left)
                self.model.add(slot.right == got.pieces[s].right)

    def plan(self, solver: cp_model.CpSolver) -> Plan:
        """The plan that the solver found; where rolls do not count, each piece has one of its own."""
        roll_of: dict[int, int] = {}
        for table in self.cut_from.values():
            for slot, choices in table:
                numbers = [r for r, chosen in enumerate(choices) if solver.value(chosen)]
                roll_of[id(slot)] = numbers[0] if numbers else -1
        return tuple(
            tuple(
                CourseGot(
                    solver.value(course.low),
                    solver.value(course.high),
                    tuple(
                        PieceGot(
                            solver.value(slot.left),
                            solver.value(slot.right),
                            solver.value(slot.steps) * self.rules.step,
                            roll_of.get(id(slot), id(slot)),
                        )
                        for slot in course.slots
                        if solver.value(slot.used)
                    ),
                )
                for course in courses
                if solver.value(course.there)
            )
            for courses in self.courses
        )


def joints_of(course: CourseVar) -> list[SlotVar]:
    """The slots whose left end is a joint."""
    return course.slots[1:]


def solve(
    roof: RoofAsk, aim: str, limit: Limit, hint: Plan | None = None, *, extra: int = 2, enough: int | None = None
) -> Answer:
    """The best plan that the solver finds within the limit, and its bound.

    hint: a plan to begin with; the answer is then no worse.  extra: see LayoutModel.
    enough: any plan worth no more than this will do.
    """
    freedom = {"extra": extra, "most_rolls": enough_rolls(roof, aim, hint) if hint is not None else None}
    asked = LayoutModel(roof, aim, **freedom)
    start = filled(roof, aim, hint, freedom) if hint is not None else []
    for place, value in enumerate(start):
        asked.model.add_hint(asked.model.get_int_var_from_proto_index(place), value)
    solver = new_solver(limit)
    if enough is not None:
        asked.model.add(asked.worth <= enough)
        solver.parameters.stop_after_first_solution = True
    status = solver.solve(asked.model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Answer(
        asked.plan(solver) if found else None,
        round(solver.objective_value) if found else None,
        None if status == cp_model.INFEASIBLE else rounded_up(solver.best_objective_bound),
        status in (cp_model.OPTIMAL, cp_model.INFEASIBLE),
        solver.wall_time,
    )


def enough_rolls(roof: RoofAsk, aim: str, hint: Plan) -> dict[str, int]:
    """Rolls of each sheet beyond which a plan would be worse than the hint, whatever else it has."""
    prices = {ply.sheet: ply.price if aim == "least_cost" else 1 for ply in roof.plies}
    needed = dict.fromkeys(prices, 0)
    for ply in roof.plies:
        needed[ply.sheet] += sum((band.high - band.low) * (band.right - band.left) for band in bands(roof, ply))
    sizes = {ply.sheet: ply.width * ply.length for ply in roof.plies}
    fewest = {sheet: -(-area // sizes[sheet]) for sheet, area in needed.items()}
    others = {sheet: sum(fewest[other] * prices[other] for other in prices if other != sheet) for sheet in prices}
    return {sheet: (AIMS[aim](roof, hint) - others[sheet]) // prices[sheet] for sheet in prices}


def rounded_up(bound: float) -> int:
    """A bound on whole numbers."""
    return int(-((-bound + 1e-6) // 1))


def filled(roof: RoofAsk, aim: str, hint: Plan, freedom: dict[str, Any]) -> list[int]:
    """Values of all variables of the model for a plan; empty where the model does not allow the plan."""
    held = LayoutModel(roof, aim, **freedom)
    held.fix(hint)
    solver = new_solver(Limit(deterministic=20.0))
    solver.parameters.stop_after_first_solution = True
    status = solver.solve(held.model)
    return list(solver.response_proto.solution) if status in (cp_model.OPTIMAL, cp_model.FEASIBLE) else []


def new_solver(limit: Limit) -> cp_model.CpSolver:
    """A solver that does the same every time, but for a limit by the clock."""
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = limit.deterministic
    solver.parameters.num_workers = limit.workers
    solver.parameters.random_seed = 1
    if limit.seconds is not None:
        solver.parameters.max_time_in_seconds = limit.seconds
    elif limit.workers > 1:
        solver.parameters.interleave_search = True
    return solver
