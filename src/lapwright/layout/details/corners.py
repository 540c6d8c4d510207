"""Gussets at inside and outside corners of flashed faces: in each flashing ply one upright and one at the foot."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from lapwright.assembly.values import Ply
from lapwright.defaults.values import Rules
from lapwright.layout.details.flashings import Flashed
from lapwright.layout.details.lengths import TICKS, detail_ticks, round_up
from lapwright.layout.details.stands import Corner, Stand
from lapwright.layout.values import Detail, Lap
from lapwright.roof.values import Point


def gussets(area: str, corner: Corner, plies: Sequence[Ply], girths: Sequence[float], rules: Rules) -> list[Detail]:
    """Gussets at one corner.

    The upright one runs the whole girth round the corner, half its width on either face; the one at the foot closes the
    field legs, which part at an outside corner and are slit at an inside one.
    plies, girths: of the backer, of the cap; the greater girth of the two faces [m].
    Source: common practice, no source
    Checked: tests/layout/test_detail_corners.py
    """
    wide, foot = detail_ticks("gusset_width"), detail_ticks("gusset_foot")
    return [
        Detail(
            id=f"{area}/{corner.of}/{ply.ply} gusset {name}",
            kind="gusset",
            area=area,
            of=corner.of,
            sheet=ply.sheet.name,
            ply=ply.ply,
            length=length,
            width=width / TICKS,
            takes_ticks=round_up(length * TICKS, rules.cut_step_ticks),
            at=(corner.at[0] / TICKS, corner.at[1] / TICKS),
            form=corner.form,
        )
        for ply, girth in zip(plies, girths, strict=True)
        for name, length, width in (("upright", girth, wide), ("foot", foot / TICKS, foot))
    ]


def gusset_laps(corner: Corner, made: Sequence[Detail], flashed: Sequence[Flashed]) -> Iterator[Lap]:
    """Laps of the upright gussets with the flashing pieces on either side; the line is the gusset's edge on the field.

    made: gussets of the corner.  flashed: of every stand.
    """
    for gusset in made:
        if not gusset.id.endswith("upright"):
            continue
        for stand in corner.stands:
            rows = [one for one in flashed if one.stand is stand and one.first.ply == gusset.ply]
            for piece in (piece_at(one, corner.at) for one in rows):
                if piece is not None and piece.line is not None:
                    wide = min(gusset.width / 2, piece.width)
                    yield side_lap(gusset, piece, stand, corner.at, wide)


def piece_at(flashed: Flashed, at: Point) -> Detail | None:
    """The piece that begins or ends at a corner."""
    x, y = at[0] / TICKS, at[1] / TICKS
    ends = [piece for row in flashed.rows for piece in (row[0], row[-1])]
    for piece in ends:
        if piece.line and any(abs(px - x) + abs(py - y) < 1e-4 for px, py in piece.line):
            return piece
    return None


def side_lap(gusset: Detail, piece: Detail, stand: Stand, at: Point, wide: float) -> Lap:
    """The lap of an upright gusset and a flashing piece."""
    x, y = at[0] / TICKS, at[1] / TICKS
    one, two = piece.line or ((x, y), (x, y))
    far = two if abs(one[0] - x) + abs(one[1] - y) < 1e-4 else one
    share = wide / piece.width
    edge = (x + (far[0] - x) * share, y + (far[1] - y) * share)
    leg = piece.parts["field"]
    line = (edge, (edge[0] + stand.field[0] * leg, edge[1] + stand.field[1] * leg))
    name = f"{gusset.id}/lap {stand.of}"
    return Lap(name, "flashing", gusset.area, gusset.ply, (piece.id, gusset.id), line, piece.length, wide)
