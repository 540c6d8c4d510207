"""Rules about single pieces and courses: shape of a blank, course numbers, widths, lengths, cut steps."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise

from lapwright.rulecheck.beside import is_beside_another
from lapwright.rulecheck.lie import Lying, PlyLie, middle
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.values import Violation


def blank_violations(lie: PlyLie) -> Iterator[Violation]:
    """Blanks that are no rectangle along the fall or not of the size that is stated.

    Source: docs/method/rulecheck.md
    """
    for lying in lie.lying:
        u0, v0, u1, v1 = lying.box
        corners = [(u0, v0), (u1, v0), (u1, v1), (u0, v1)]
        given = [lie.slope.uv(corner) for corner in lying.given.blank]
        off = max(min(math.dist(corner, one) for one in given) for corner in corners)
        where = middle(lying.box)
        if off > lie.limits.close:
            text = f"Piece {lying.id}: the blank is no rectangle along the fall; correct the corners of its blank."
            yield lie.found("blank", [lying.id], where, text)
            continue
        for name, read, needs in (("length", lying.given.length, u1 - u0), ("width", lying.given.width, v1 - v0)):
            if abs(read - needs) > lie.limits.close:
                text = f"Piece {lying.id}: {name} {{read}}, but the blank is {{needs}}; write what the blank is."
                yield lie.found("blank", [lying.id], where, text, read=read, needs=needs)


def course_violations(lie: PlyLie) -> Iterator[Violation]:
    """Courses out of number, upside down or not above one another; pieces outside their course.

    Source: docs/method/rulecheck.md
    """
    close = lie.limits.close
    indexes = [course.index for course in lie.given.courses]
    if indexes != list(range(1, len(indexes) + 1)):
        text = f"The {lie.name}: courses are to be numbered 1 to {len(indexes)} from the low edge; number them so."
        yield lie.found("course", [], None, text, read=", ".join(map(str, indexes[:20])))
    for course in lie.courses:
        if course.high - course.low < close:
            text = f"The {lie.name}, course {course.index}: its high edge is not above its low edge; correct it."
            yield lie.found("course", [], None, text, read=course.high, needs=course.low)
    for one, two in pairwise(lie.courses):
        if two.low - one.low < close:
            text = f"The {lie.name}: course {two.index} does not begin above course {one.index}; correct its edges."
            yield lie.found("course", [], None, text, read=two.low, needs=one.low)
    bands = {course.index: (course.low, course.high) for course in lie.courses}
    for lying in lie.lying:
        band = bands.get(lying.given.course)
        if band is None:
            text = f"Piece {lying.id}: the {lie.name} has no course {lying.given.course}; name the course it lies in."
            yield lie.found("course", [lying.id], middle(lying.box), text)
            continue
        for name, read, needs in (("low", lying.v0, band[0]), ("high", lying.v1, band[1])):
            if abs(read - needs) > close and not _is_over_another(lie, lying, name):
                text = f"Piece {lying.id}: its {name} edge is at {{read}}, that of its course at {{needs}}; move it."
                yield lie.found("course", [lying.id], middle(lying.box), text, read=read, needs=needs)


def width_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces wider than the sheet; a cap whose first course is no full sheet; courses that show too little.

    Source: docs/method/rulecheck.md
    """
    close, depth = lie.limits.close, lie.ground.high - lie.ground.low
    for lying in lie.lying:
        if lying.v1 - lying.v0 > lie.width + close:
            text = f"Piece {lying.id} is {{read}} wide, its sheet {{needs}}; lay it in two courses."
            yield lie.found(
                "sheet_width", [lying.id], middle(lying.box), text, read=lying.v1 - lying.v0, needs=lie.width
            )
    if lie.is_cap and lie.courses:
        first, needs = lie.courses[0], min(lie.width, depth)
        read = first.high - first.low
        if read < needs - close:
            text = (
                f"The {lie.name}: its first course is {{read}} wide and has to be {{needs}}; begin with a full sheet."
            )
            yield lie.found(
                "first_course", _ids(lie, first.index), _spot(lie, first.index), text, read=read, needs=needs
            )
    yield from _narrow(lie)


def _is_over_another(lie: PlyLie, lying: Lying, name: str) -> bool:
    """Beyond that edge another piece of the course lies over the same stretch, all of both within the course.

    So it is where an opening or a bite of the outline leaves a strip of the course on either side of it.
    """
    close = lie.limits.close
    course = next(each for each in lie.courses if each.index == lying.given.course)
    is_within = course.low - close <= lying.v0 and lying.v1 <= course.high + close
    return is_within and is_beside_another(lie, lying, above=name == "high")


def _narrow(lie: PlyLie) -> Iterator[Violation]:
    """Courses that show less than `narrowest_rip`.

    A single course shows all there is.  A narrow second course of the cap has only the full first one below it.
    """
    count = len(lie.courses)
    for place, course in enumerate(lie.courses):
        is_top = place == count - 1
        shown = course.high - course.low if is_top else lie.courses[place + 1].low - course.low
        is_excused = is_top and (count == 1 or (count == 2 and lie.is_cap))
        if shown < lie.limits.narrowest_rip - lie.limits.close and not is_excused:
            other = "below" if is_top else "above"
            text = (
                f"The {lie.name}: course {course.index} shows {{read}}, needs {{needs}}; "
                f"rip the course {other} so that this one gets wider."
            )
            yield lie.found(
                "narrowest_rip",
                _ids(lie, course.index),
                _spot(lie, course.index),
                text,
                read=shown,
                needs=lie.limits.narrowest_rip,
            )


def length_violations(lie: PlyLie) -> Iterator[Violation]:
    """Pieces longer than allowed or than their roll; cut lengths that are no whole steps or too short.

    Source: docs/method/rulecheck.md
    """
    close = lie.limits.close
    longest = min(lie.limits.longest_piece, metres(lie.sheet.length_ticks))
    for lying in lie.lying:
        length = lying.u1 - lying.u0
        if length > longest + close:
            text = f"Piece {lying.id} is {{read}} long, at most {{needs}} is allowed; put an end lap into it."
            yield lie.found("longest_piece", [lying.id], middle(lying.box), text, read=length, needs=longest)
        yield from _cut(lie, lying, length)


def _cut(lie: PlyLie, lying: Lying, length: float) -> Iterator[Violation]:
    cut, step, close = lying.given.cut_length, lie.limits.cut_step, lie.limits.close
    if cut is None:
        return
    if cut < length - close:
        text = f"Piece {lying.id} is cut {{read}} long and lies {{needs}} long; cut it longer."
        yield lie.found("cut_step", [lying.id], middle(lying.box), text, read=cut, needs=length)
    elif abs(cut - round(cut / step) * step) > close:
        needs = math.ceil((length - close) / step) * step
        text = f"Piece {lying.id} is cut {{read}} long, which is no whole number of steps; cut it {{needs}}."
        yield lie.found("cut_step", [lying.id], middle(lying.box), text, read=cut, needs=needs)


def cut_length_of(lie: PlyLie, lying: Lying) -> float:
    """What is cut off the roll for a piece: as stated, else its length rounded up to the step [m].

    Source: docs/method/rulecheck.md
    """
    if lying.given.cut_length is not None:
        return lying.given.cut_length
    step = lie.limits.cut_step
    return math.ceil((lying.u1 - lying.u0 - lie.limits.close) / step) * step


def _ids(lie: PlyLie, course: int) -> list[str]:
    return [lying.id for lying in lie.rows.get(course, ())]


def _spot(lie: PlyLie, course: int) -> tuple[float, float] | None:
    row = lie.rows.get(course)
    return middle(row[0].box) if row else None
