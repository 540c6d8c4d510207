"""Base flashings: girth from height, cant and field leg; pieces cut across the roll, backer and cap, with their laps.

The side laps of flashings stay off the laps of the field that run into the wall, and those of the cap flashing off
those of the backer where that takes no more pieces.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.assembly.values import Ply, Sheet
from lapwright.defaults.si import default_si
from lapwright.defaults.values import Rules
from lapwright.layout.details.lengths import FOOT, HAIR, TICKS, along, detail_ticks, round_up
from lapwright.layout.details.stands import Stand, Stretch
from lapwright.layout.plain import plain
from lapwright.layout.values import Detail, Lap

LEGS = ("backer_leg", "field_leg")
SHARES = (1.0, 0.75, 0.5, 0.25)  # of the stagger, tried in turn between the joints of the two flashing plies


@dataclass(frozen=True, slots=True)
class Flashed:
    """The flashing of one ply along one stand: pieces by stretch, and how many joints lie too near a field lap."""

    stand: Stand
    rows: tuple[tuple[Detail, ...], ...]
    near: int

    @property
    def first(self) -> Detail:
        """The first piece: its girth, ply and parts are those of all."""
        return self.rows[0][0]

    @property
    def pieces(self) -> list[Detail]:
        """Every piece, along the stand."""
        return [piece for row in self.rows for piece in row]


@plain
class Joints:
    """Starts of the pieces after the first along a stretch [ticks], and how many of them could not keep clear."""

    places: tuple[float, ...]
    near: int


def flashed_height(stand: Stand, longest: int, rules: Rules) -> float:
    """How high a flashing stands above the finished roof [m].

    Up the whole face of a parapet, curb or expansion joint, with a row of fasteners part-way where that is over 24";
    a wall or step over 24" goes on behind its own finish, and is flashed to the least height asked for.  So is a face
    whose height is not given, and one too high for a single piece.
    longest: what may be cut from a roll in one piece [ticks].
    Source: common practice, no source
    Checked: tests/layout/test_detail_flashings.py
    """
    height = stand.height
    if height is None or (height > default_si("details", "flashing_tall") and stand.kind in ("wall", "step")):
        return rules.flashing_height
    parts = girth_parts(height, detail_ticks(LEGS[1]), rules)
    return height if sum(parts.values()) * TICKS <= longest + HAIR else rules.flashing_height


def girth_parts(height: float, leg: int, rules: Rules) -> dict[str, float]:
    """The girth of a flashing by its parts [m]: wall above the cant, face of the cant, leg on the field.

    Source: geometry
    """
    cant = rules.cant_ticks / TICKS
    return {"wall": max(0.0, height - cant), "cant": cant * math.sqrt(2.0), "field": leg / TICKS}


def flash_stand(
    area: str, stand: Stand, plies: Sequence[Ply], meets: tuple[Sequence[float], Sequence[float]], rules: Rules
) -> list[Flashed]:
    """Backer and cap flashing along one stand.

    plies: of the backer, of the cap.  meets: where side laps and end laps of the field meet the stand, from its
    start [ticks].
    Source: common practice, no source
    Checked: tests/layout/test_detail_flashings.py
    """
    longest = min([rules.longest_piece_ticks, *(ply.sheet.length_ticks for ply in plies)])
    height = flashed_height(stand, longest, rules)
    found: list[Flashed] = []
    for ply, leg in zip(plies, LEGS, strict=True):
        under = [place for one in found for row in one.rows for place in starts_of(stand, row)]
        parts = girth_parts(height, detail_ticks(leg), rules)
        rows, near, count = [], 0, 0
        for stretch in stand.stretches:
            stagger = rules.flashing_lap_stagger_ticks
            joints = place_joints(stretch, ply.sheet, stagger, meets[0], under, ends=meets[1])
            row = make_row(area, stand, ply, spans(stretch, joints, ply.sheet), parts, first=count + 1, rules=rules)
            rows.append(row)
            near, count = near + joints.near, count + len(row)
        found.append(Flashed(stand, tuple(rows), near))
    return found


def starts_of(stand: Stand, row: Sequence[Detail]) -> list[float]:
    """Where the pieces after the first begin, from the stand's start [ticks].  Source: arithmetic"""
    start, end = ((x / TICKS, y / TICKS) for x, y in (stand.start, stand.end))
    more = stand.length / math.dist(start, end)
    return [math.dist(start, piece.line[0]) * more for piece in row[1:] if piece.line]


def make_row(
    area: str,
    stand: Stand,
    ply: Ply,
    places: Sequence[Stretch],
    parts: dict[str, float],
    *,
    first: int,
    rules: Rules,
) -> tuple[Detail, ...]:
    """The pieces of one stretch; the sheet's width runs along the wall."""
    girth = sum(parts.values())
    takes = round_up(girth * TICKS, rules.cut_step_ticks)
    return tuple(
        Detail(
            id=f"{area}/{stand.of}/{ply.ply} flashing {k}",
            kind="flashing",
            area=area,
            of=stand.of,
            sheet=ply.sheet.name,
            ply=ply.ply,
            length=girth,
            width=(b - a) / TICKS,
            line=along(stand.start, stand.end, a / stand.length, b / stand.length),
            parts=parts,
            takes_ticks=takes,
        )
        for k, (a, b) in enumerate(places, start=first)
    )


def spans(stretch: Stretch, joints: Joints, sheet: Sheet) -> list[Stretch]:
    """From and to of each piece [ticks].  Source: arithmetic"""
    starts = [stretch[0], *joints.places]
    ends = [place + sheet.side_lap_ticks for place in joints.places] + [stretch[1]]
    return list(zip(starts, ends, strict=True))


def place_joints(
    stretch: Stretch,
    sheet: Sheet,
    stagger: int,
    meets: Sequence[float],
    under: Sequence[float],
    *,
    ends: Sequence[float] = (),
) -> Joints:
    """Joints of the fewest pieces that keep the stagger from the field's side laps, as far as it can be kept.

    Each joint goes as far as the sheet reaches and the laps allow, which is the fewest joints.  End laps of the field
    are few and far between: they are kept clear of by as much of the stagger as takes no more pieces, and so are the
    joints of the flashing underneath.
    meets, ends, under: side and end laps of the field, joints of the flashing below [ticks from the stand's start].
    Source: common practice, no source; the greedy choice is exact
    Checked: tests/layout/test_detail_flashings.py
    """
    start, end = stretch
    if end - start <= sheet.width_ticks + HAIR:  # one piece, wherever laps are
        return Joints((), 0)
    meets = [place for place in meets if start - stagger < place < end + stagger]
    laps, kept = sorted([*meets, *ends]), around(meets, stagger)
    best = counted(walk_joints(stretch, sheet, kept, meets), laps, stagger)
    fewest = len(best.places)
    for others in (ends, [*ends, *under]):
        for share in SHARES if others else ():
            off = merged([*kept, *around(others, share * stagger)])
            found = counted(walk_joints(stretch, sheet, off, meets), laps, stagger)
            if len(found.places) <= fewest and found.near <= best.near:
                best = found
                break
    return best


def around(places: Sequence[float], apart: float) -> list[Stretch]:
    """Spans that reach as far on either side of each place, merged.  Source: arithmetic"""
    return merged([(place - apart, place + apart) for place in places])


def counted(joints: Joints, laps: Sequence[float], stagger: int) -> Joints:
    """The joints with the number of those nearer to a lap of the field than the stagger.  Source: arithmetic"""
    if not laps:
        return Joints(joints.places, 0)
    return Joints(joints.places, sum(nearest(place, laps) < stagger - HAIR for place in joints.places))


def nearest(place: float, laps: Sequence[float]) -> float:
    """How far the nearest of some laps is from a place; laps rise.  Source: arithmetic"""
    k = bisect_left(laps, place)
    return min((abs(lap - place) for lap in laps[max(0, k - 1) : k + 1]), default=math.inf)


def walk_joints(stretch: Stretch, sheet: Sheet, off: Sequence[Stretch], meets: Sequence[float]) -> Joints:
    """Joints from the start on; one that can't keep off goes where it is farthest from the field's laps.

    off: what joints keep off, apart from one another and in order.  No piece is under a foot, or half a narrow sheet.
    """
    start, end = stretch
    places: list[float] = []
    near, at, short = 0, start, min(FOOT, sheet.width_ticks // 2)
    while end - at > sheet.width_ticks + HAIR:
        most = min(at + sheet.pitch_ticks, end - short)
        least = min(most, at + max(short - sheet.side_lap_ticks, sheet.pitch_ticks // 4))
        place = clear_below(most, off)
        if place < least - HAIR:
            near, place = near + 1, farthest(least, most, meets)
        places.append(place)
        at = place
    return Joints(tuple(places), near)


def merged(spans: Sequence[Stretch]) -> list[Stretch]:
    """Spans that overlap made one, in order.  Source: arithmetic"""
    found: list[Stretch] = []
    for low, high in sorted(spans):
        if found and low < found[-1][1] - HAIR:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found


def clear_below(most: float, off: Sequence[Stretch]) -> float:
    """The greatest place up to `most` that lies within none of the spans."""
    k = bisect_left(off, (most, -1.0)) - 1
    return off[k][0] if k >= 0 and off[k][0] + HAIR < most < off[k][1] - HAIR else most


def farthest(least: float, most: float, meets: Sequence[float]) -> float:
    """The place from `least` to `most` that is farthest from the nearest lap; of equal ones the last."""
    about = meets[max(0, bisect_left(meets, least) - 1) : bisect_right(meets, most) + 1]
    between = [(a + b) / 2 for a, b in pairwise(about) if least <= (a + b) / 2 <= most]
    return max((least, *between, most), key=lambda place: (nearest(place, meets), place))


def flashing_laps(flashed: Flashed, sheet: Sheet) -> Iterator[Lap]:
    """Side laps between flashing pieces that follow each other; the line is the exposed edge on the field."""
    field = flashed.stand.field
    for row in flashed.rows:
        for one, other in pairwise(row):
            if other.line is None:
                continue
            at, leg = other.line[0], other.parts["field"]
            line = (at, (at[0] + field[0] * leg, at[1] + field[1] * leg))
            pair, width = (one.id, other.id), sheet.side_lap_ticks / TICKS
            yield Lap(f"{other.id}/lap", "flashing", one.area, one.ply, pair, line, one.length, width)


def fixings(area: str, flashed: Flashed) -> Iterator[Detail]:
    """Rows of fasteners part-way up a flashing over 24", evenly, so that no part of it hangs higher than that.

    Source: Professional Roofing, Feb 2006, flashing height; defaults/details.csv flashing_tall
    Checked: tests/layout/test_detail_flashings.py
    """
    stand, tall = flashed.stand, default_si("details", "flashing_tall")
    parts = flashed.first.parts
    height = parts["wall"] + parts["cant"] / math.sqrt(2.0)
    rows = math.ceil(height / tall - 1e-9) - 1
    for row in range(1, rows + 1):
        for part, (a, b) in enumerate(stand.stretches, start=1):
            name = f"fixing {row}" + (f"/{part}" if part > 1 else "")
            yield Detail(
                id=f"{area}/{stand.of}/{name}",
                kind="fixing",
                area=area,
                of=stand.of,
                sheet="",
                ply="",
                length=(b - a) / TICKS,
                width=0.0,
                line=along(stand.start, stand.end, a / stand.length, b / stand.length),
                parts={"height": height * row / (rows + 1)},
            )
