"""The pattern a ply is laid by, in words, before the list: which courses are cut alike, and which are mirrored.

*Cut*: the cut lengths of a course from left to right, looking up the fall, those of each run by themselves.  A pattern
is a cut that comes again; a course whose cut is another's read from right to left is its mirror.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby, pairwise

from lapwright.layout.values import Piece
from lapwright.packet.pages.words import spans
from lapwright.units.write import Units

Cut = tuple[tuple[int, ...], ...]
MOST_CUTS = 8  # the rest is listed
PAST = ", past an opening "

NONE = "No pattern: no two courses are cut alike; each is listed."


def pattern_words(units: Units, pieces: Sequence[Piece], most: int = MOST_CUTS) -> str:
    """The pattern of a ply on an area, or that there is none; pieces of one ply on one area.

    most: cuts told in words; those that come most often are.
    """
    courses = course_cuts(pieces)
    if not courses:
        return ""
    groups = by_cut(courses)
    told = [(cut, numbers) for cut, numbers in groups.items() if len(numbers) > 1 or mirror(cut) in groups]
    told = [(cut, numbers) for cut, numbers in told if len(numbers) > 1 or cut != mirror(cut)]
    if not told:
        return NONE
    kept = sorted(sorted(told, key=lambda one: -len(one[1]))[:most], key=lambda one: one[1][0])
    said: dict[Cut, str] = {}
    words: list[str] = []
    for cut, numbers in kept:
        where = course_words(numbers)
        other = said.get(mirror(cut))
        words.append(f"{where}: {cut_words(units, cut) if other is None else f'{other} mirrored'}.")
        said[cut] = f"as {where[0].lower()}{where[1:]}"
    rest = len(courses) - sum(len(numbers) for _, numbers in kept)
    if rest:
        words.append("The other course is listed." if rest == 1 else f"The other {rest} courses are listed.")
    return " ".join(words)


def course_cuts(pieces: Iterable[Piece]) -> dict[int, Cut]:
    """The cut of every course by its number."""
    ordered = sorted(pieces, key=lambda piece: (piece.course, piece.u0))
    return {course: runs(list(own)) for course, own in groupby(ordered, key=lambda piece: piece.course)}


def runs(pieces: Sequence[Piece]) -> Cut:
    """The cut lengths of a course, a new run where a piece begins past the end of those before it."""
    found: list[list[int]] = []
    end: int | None = None
    for piece in pieces:
        if end is None or piece.u0 >= end:
            found.append([])
        found[-1].append(piece.cut_length)
        end = piece.u1 if end is None else max(end, piece.u1)
    return tuple(tuple(run) for run in found)


def by_cut(courses: Mapping[int, Cut]) -> dict[Cut, list[int]]:
    """Courses by their cut, in the order of their first."""
    groups: dict[Cut, list[int]] = {}
    for number, cut in courses.items():
        groups.setdefault(cut, []).append(number)
    return groups


def mirror(cut: Cut) -> Cut:
    """A cut read from right to left."""
    return tuple(run[::-1] for run in cut[::-1])


def cut_words(units: Units, cut: Cut) -> str:
    """The lengths of a cut, like ones counted."""
    return PAST.join(", ".join(alike(units, length, list(same)) for length, same in groupby(run)) for run in cut)


def alike(units: Units, length: int, same: Sequence[int]) -> str:
    """One length, or so many of it."""
    return units.tape(length) if len(same) == 1 else f"{len(same)} × {units.tape(length)}"


def course_words(numbers: Sequence[int]) -> str:
    """Courses by number: `Course 4`, `Courses 1, 3, 5-9`, `Courses 1 to 31, every second`."""
    if len(numbers) == 1:
        return f"Course {numbers[0]}"
    steps = {after - before for before, after in pairwise(numbers)}
    if len(numbers) > 4 and steps in ({2}, {3}):
        every = "second" if steps == {2} else "third"
        return f"Courses {numbers[0]} to {numbers[-1]}, every {every}"
    return f"Courses {ranges(numbers)}"


def ranges(numbers: Sequence[int]) -> str:
    """Rising numbers, three or more in a row as a range: `1, 2, 5-9`."""
    told: list[str] = []
    for first, last in spans(numbers):
        told += [f"{first}-{last}"] if last - first > 1 else [str(number) for number in range(first, last + 1)]
    return ", ".join(told)
