"""Rules about end laps and what they make of a run: lengths, staggers, openings passed, shortest pieces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set

from lapwright.rulecheck.ground import Hole
from lapwright.rulecheck.lie import EndLap, Lying, PlyLie, middle
from lapwright.rulecheck.values import Violation


def end_lap_violations(lie: PlyLie) -> Iterator[Violation]:
    """End laps that are too short, abutting pieces among them, and pieces that lie on one another beyond reason.

    Source: docs/method/rulecheck.md
    """
    for lap in lie.end_laps:
        length = lap.u1 - lap.u0
        where = (lap.joint, (lap.low + lap.high) / 2)
        if length < lie.end_lap - lie.limits.close:
            text = f"Pieces {lap.left.id} and {lap.right.id}: the end lap is {{read}}, needs {{needs}}; lengthen one."
            yield lie.found("end_lap", lap.ids, where, text, read=max(0.0, length), needs=lie.end_lap)
        if lap.right.u1 <= lap.left.u1 + lie.limits.close:
            text = f"Piece {lap.right.id} lies wholly on piece {lap.left.id}; take it out or move it."
            yield lie.found("end_lap", lap.ids, where, text)


def stagger_violations(lie: PlyLie) -> Iterator[Violation]:
    """End laps of adjacent courses that are too near to one another; two that openings hold are let be.

    Source: docs/method/rulecheck.md
    """
    limits = lie.limits
    by_course: dict[int, list[EndLap]] = {}
    for lap in lie.end_laps:
        by_course.setdefault(lap.course, []).append(lap)
    for course, laps in by_course.items():
        for lap, other, apart in _close_pairs(
            by_course.get(course + 1, []), laps, limits.end_lap_stagger - limits.close
        ):
            text = (
                f"The {lie.name}: end laps {_named(lap)} and {_named(other)} of adjacent courses are {{read}} apart, "
                f"need {{needs}}; move one."
            )
            where = (lap.joint, lap.low)
            yield lie.found(
                "end_lap_stagger", [*lap.ids, *other.ids], where, text, read=apart, needs=limits.end_lap_stagger
            )


def end_lap_ply_violations(lie: PlyLie, under: PlyLie) -> Iterator[Violation]:
    """End laps too near to one of the ply under them in a course that lies under theirs; two held ones are let be.

    Source: docs/method/rulecheck.md
    """
    limits = lie.limits
    for lap, other, apart in _close_pairs(lie.end_laps, under.end_laps, limits.end_lap_ply_offset - limits.close):
        if min(lap.high, other.high) - max(lap.low, other.low) > limits.close:
            text = (
                f"The {lie.name}: end lap {_named(lap)} is {{read}} from {_named(other)} of the {under.ply.ply} "
                f"under it, needs {{needs}}; move one."
            )
            where = (lap.joint, max(lap.low, other.low))
            yield lie.found(
                "end_lap_ply_offset", [*lap.ids, *other.ids], where, text, read=apart, needs=limits.end_lap_ply_offset
            )


def opening_violations(lie: PlyLie) -> Iterator[Violation]:
    """Openings wholly inside a sheet without an end lap that is clear of their corners.

    Clear: no corner within the strip where both pieces lie, nor the strip beyond the opening.  Where the corners of
    an opening that stands askew leave no room for that, between its outermost corners is enough.
    Source: docs/method/rulecheck.md
    """
    for course in lie.courses:
        row = lie.rows.get(course.index, ())
        for hole in lie.holes_inside(course.index, course.low, course.high, surely=True):
            over = [lying for lying in row if lying.u0 < hole.box[2] and hole.box[0] < lying.u1]
            laps = [lap for lap in lie.end_laps if lap.course == course.index]
            if over and not any(_is_clear(lie, lap, hole) for lap in laps):
                text = (
                    f"The {lie.name}, course {course.index}: opening {hole.name} lies inside the sheet; "
                    f"let two notched pieces meet in an end lap between its corners."
                )
                near = [lap for lap in laps if lap.u0 < hole.box[2] and hole.box[0] < lap.u1]
                read = "an end lap over a corner" if near else "no end lap at it"
                ids = [lying.id for lying in over]
                yield lie.found(
                    "opening_lap", ids, middle(hole.box), text, read=read, needs="an end lap clear of corners"
                )


def shortest_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces shorter than allowed though their run is longer and openings do not make them so.

    Source: docs/method/rulecheck.md
    """
    shortest = lie.limits.shortest_piece - lie.limits.close
    held = {lap.ids for lap in lie.end_laps if lap.holder is not None}
    for run in runs_of(lie):
        if run[-1].u1 - run[0].u0 < shortest:
            continue
        for place, lying in enumerate(run):
            ends = (_end(held, run, place - 1), _end(held, run, place))
            is_excused = "held" in ends and "met" not in ends
            if lying.u1 - lying.u0 < shortest and not is_excused:
                text = f"Piece {lying.id} is {{read}} long, at least {{needs}} is asked; move its end lap."
                read = lying.u1 - lying.u0
                yield lie.found(
                    "shortest_piece", [lying.id], middle(lying.box), text, read=read, needs=lie.limits.shortest_piece
                )


def runs_of(lie: PlyLie) -> Iterator[tuple[Lying, ...]]:
    """The runs: pieces of a course that hang together by end laps, from the left.

    Source: docs/method/rulecheck.md
    """
    meets = {frozenset(lap.ids) for lap in lie.end_laps}
    for row in lie.rows.values():
        runs: list[list[Lying]] = []
        for lying in row:
            touched = [run for run in runs if any(frozenset((lying.id, one.id)) in meets for one in run)]
            runs = [run for run in runs if run not in touched] + [[one for run in touched for one in run] + [lying]]
        for run in sorted(runs, key=lambda run: run[0].u0):
            yield tuple(sorted(run, key=lambda lying: lying.u0))


def _end(held: Set[tuple[str, str]], run: Sequence[Lying], place: int) -> str:
    """How pieces `place` and `place + 1` of a run meet: held, as the pairs of pieces in `held` do, met, or its end."""
    if not 0 <= place < len(run) - 1:
        return "end"
    pair = (run[place].id, run[place + 1].id)
    return "held" if pair in held else "met"


def _close_pairs(
    laps: Sequence[EndLap], others: Sequence[EndLap], least: float
) -> Iterator[tuple[EndLap, EndLap, float]]:
    """Pairs of joints less than `least` apart across the fall, but for two held ones."""
    for lap in laps:
        for other in others:
            apart = abs(lap.joint - other.joint)
            if apart < least and (lap.holder is None or other.holder is None):
                yield lap, other, apart


def _is_clear(lie: PlyLie, lap: EndLap, hole: Hole) -> bool:
    """The end lap passes the opening clear of its corners."""
    return hole.is_passed((lap.u0, lap.u1), lie.end_lap + lie.limits.cut_step, lie.limits.close)


def _named(lap: EndLap) -> str:
    return f"{lap.left.id} – {lap.right.id}"
