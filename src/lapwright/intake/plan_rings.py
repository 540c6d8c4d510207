"""The lines of one layer in ticks, joined into rings: who drew each side, which were curves, what was mended."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from lapwright.defaults.table import table
from lapwright.faults import Fault, Mended, Refused, shorten
from lapwright.geometry.polygon import Point, sides_of
from lapwright.intake.plan_blocks import Piece
from lapwright.intake.plan_chains import Chain, Joined, join_chains
from lapwright.intake.plan_curves import LINES, Stroke, Unfit, stroke
from lapwright.intake.plan_scale import How, as_ticks, refusal, without_repeats
from lapwright.units.read import length_ticks

MOST_NAMED = 4
FAR = 100  # times the widest roof [drawing units]: farther apart, a curve is not cut into sides


@dataclass(slots=True)
class Rings:
    """What a layer draws.

    closed: rings, corners not repeated.  still_open: chains that do not close.  owners: the entity of each side and of
    each corner.  curved: points put on a curve.
    """

    layer: str
    closed: list[Chain] = field(default_factory=list)
    still_open: list[Chain] = field(default_factory=list)
    owners: dict[frozenset[Point], str] = field(default_factory=dict)
    curved: set[Point] = field(default_factory=set)
    notes: list[Mended] = field(default_factory=list)

    @property
    def key(self) -> str:
        """The layer as faults and notes name it."""
        return f"layer {shorten(self.layer, 40)}"

    def owner(self, *points: Point) -> str:
        """The entity that drew a side or a corner; where ends were joined, that of the side's first end."""
        known = self.owners.get(frozenset(points))
        return known if known is not None else self.owners.get(frozenset(points[:1]), "")

    def entities(self, ring: Chain) -> str:
        """The entities that draw a ring, the first few by name."""
        named = list(dict.fromkeys(filter(None, (self.owner(*side) for side in sides_of(ring)))))
        rest = len(named) - MOST_NAMED
        return ", ".join(named[:MOST_NAMED]) + (f" and {rest} more" if rest > 0 else "")

    def refused(self, how: How, read: str, needs: str, write: str, *, place: str = "") -> Refused:
        """One fault about this layer."""
        return refusal(how.file, f"{self.key}, {place}" if place else self.key, read, needs, write)

    def mend(self, how: How, found: str, done: str) -> None:
        """Notes what was mended."""
        self.notes.append(Mended(how.file, self.key, found, done))


def rings_of(pieces: Iterable[Piece], layer: str, size: Fraction, how: How) -> Rings:
    """The rings and open chains of a layer.

    size: ticks in one unit of the drawing.
    Raises: Refused with every entity that can't be read.
    """
    made = Rings(layer)
    faults: list[Fault] = []
    loose: list[Chain] = []
    lines = curves = 0
    widest = FAR * float(length_ticks(table("roof")["widest"].value) / size)
    for piece in pieces:
        if piece.kind not in LINES:
            continue
        try:
            drawn = stroke(piece, within=float(how.flat / size), widest=widest)
        except Unfit as unfit:
            faults += made.refused(how, *unfit.told, place=piece.place).faults
            continue
        chain = _in_ticks(drawn, piece, size, made)
        curves += drawn.curves
        lines += piece.kind in ("LINE", "ARC")
        (made.closed if drawn.is_closed else loose).append(chain)
    if faults:
        raise Refused(faults)
    _join(loose, made, lines, how)
    made.closed = [ring for ring in (without_repeats(chain) for chain in made.closed) if len(ring) > 2]
    if curves:
        made.mend(
            how, f"curves: {curves}", f"cut into straight sides that keep within {how.shown.tape(how.flat)} of them"
        )
    return made


def _in_ticks(drawn: Stroke, piece: Piece, size: Fraction, made: Rings) -> Chain:
    """The stroke's points in ticks, its sides and its curved points noted."""
    chain = [as_ticks(x, y, size) for x, y in drawn.points]
    made.curved.update(point for point, curved in zip(chain, drawn.curved, strict=True) if curved)
    for start, end in sides_of(chain):
        made.owners.setdefault(frozenset((start, end)), piece.place)
        made.owners.setdefault(frozenset((start,)), piece.place)
    return chain


def _join(loose: Sequence[Chain], made: Rings, lines: int, how: How) -> None:
    """Chains joined where ends meet, then where they nearly meet; every gap closed is told."""
    near = min(length_ticks(table("roof")["line_join"].value), how.join)
    joined = join_chains(loose, within=near)
    if joined.twice:
        made.mend(how, f"lines drawn twice: {joined.twice}", "read once")
    wide = join_chains(joined.still_open, within=how.join) if joined.still_open else Joined()
    made.closed += joined.closed + wide.closed
    made.still_open = wide.still_open
    if lines and made.closed:
        made.mend(how, f"single lines and arcs: {lines}", "joined end to end")
    gaps = sorted([*joined.gaps, *wide.gaps], key=lambda gap: (-gap[0], gap[1]))
    if gaps:
        told = "; ".join(f"{how.gap(gap)} at {how.at(point)}" for gap, point in gaps[:MOST_NAMED])
        rest = len(gaps) - MOST_NAMED
        told += f"; and {rest} narrower" if rest > 0 else ""
        made.mend(
            how, f"ends that do not quite meet: {told}", f"joined, being no more than {how.shown.tape(how.join)} apart"
        )


def counted(kinds: Iterable[str]) -> str:
    """`2 LINE, 1 TEXT`, in the order met."""
    return ", ".join(f"{count} {kind}" for kind, count in Counter(kinds).items())


def curved_sides(ring: Sequence[Point], curved: set[Point]) -> str:
    """The sides of a ring, numbered from 1, that stand for curves: `2-18, 20`."""
    numbers = [number for number, side in enumerate(sides_of(ring), start=1) if curved.intersection(side)]
    return ", ".join(f"{first}-{last}" if last > first else str(first) for first, last in _runs(numbers))


def _runs(numbers: Sequence[int]) -> Iterator[tuple[int, int]]:
    start = 0
    for place in range(1, len(numbers) + 1):
        if place == len(numbers) or numbers[place] != numbers[place - 1] + 1:
            yield numbers[start], numbers[place - 1]
            start = place
