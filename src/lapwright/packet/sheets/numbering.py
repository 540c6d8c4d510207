"""Numbers of courses and pieces: inside what they name, smaller where it is small, led to where it is too small."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from lapwright.layout.values import Lap, Piece, TJoint
from lapwright.packet.drawing import Pt
from lapwright.packet.lettering import text_width
from lapwright.packet.sheets.board import Board
from lapwright.packet.sheets.labels import Lettering, Side, Spot, led, line_box, upright
from lapwright.packet.sheets.model import TICKS, TJOINT
from lapwright.packet.sheets.naming import ALONG, is_inside
from lapwright.packet.sheets.showing import Showing, middle_line

MOST_LEADERS = 12
SHORT_PIECE = 14.0  # beside a shorter one a course's name has no room [mm]
REACHES = (5.0, 7.0, 9.0, 12.0, 15.0, 19.0)


def block_laps(board: Board, laps: Iterable[Lap], joints: Iterable[TJoint]) -> None:
    """Labels keep off end laps and T-joints."""
    for lap in laps:
        if lap.kind == "end":
            a, b = (board.view.point(point) for point in lap.line)
            board.field.take(line_box(a, b, 0.4))
    for joint in joints:
        x, y = board.view.point(joint.at)
        board.field.take(line_box((x - TJOINT, y), (x + TJOINT, y), TJOINT * 0.6))


def name_courses(
    board: Board, showing: Showing, pieces: Sequence[Piece], *, layer: str = "TEXT", every: int = 1
) -> None:
    """C1, C2, … beside the left end of each course; just inside it where that is taken and the course tall enough.

    Args:
        pieces: those of one ply of the area that are on the sheet.
        every: only one course in so many is named.
    """
    if not pieces:
        return
    area = pieces[0].area
    ux, uy = showing.layout.frames[area].across
    turn = math.degrees(math.atan2(uy, ux))
    is_turned = abs(upright(turn) - turn) > 1
    outer: Side = "left" if is_turned else "right"
    inner: Side = "right" if is_turned else "left"
    style, small = (Lettering(size, layer, backed=True) for size in (board.letter, board.smallest))
    for index, row in by_course(pieces).items():
        if index % every and index != 1:
            continue
        shown = showing.row(row)
        line = middle_line(board, showing, area, shown)
        if line is None:
            continue
        x, y = line[0]
        inside = [Spot((x + ux * 1.6, y + uy * 1.6), upright(turn), across=inner)]
        if shown.height * board.scale.per_metre < board.letter * 1.7:
            inside = []
        spots = [Spot((x - ux * 2.6, y - uy * 2.6), upright(turn), across=outer)]
        for up in (2.6, -2.6, 0.0):
            far = (x - ux * 10.5 - uy * up, y - uy * 10.5 + ux * up)
            spots.append(Spot(far, upright(turn), across=outer, leader_from=(x, y)))
        # A short first piece needs its room for its own number.
        is_short = (row[0].u1 - row[0].u0) / TICKS * board.scale.per_metre < SHORT_PIECE
        tries = [(spots, style), (inside, small)] if is_short else [([spots[0], *inside, *spots[1:]], style)]
        if not any(board.label(f"C{index}", some, how) for some, how in tries) and every == 1:
            board.unplaced.append(f"C{index}")


def name_rows(board: Board, showing: Showing, pieces: Sequence[Piece], numbers: Numbers) -> int:
    """The first and last number of each course, beside it: for courses too low to take the numbers of their pieces.

    Returns: how many courses stay without.
    """
    rows: dict[tuple[str, str, int], list[Piece]] = {}
    for piece in pieces:
        if middle_line(board, showing, piece.area, showing.row([piece])) is not None:
            rows.setdefault(course_of(piece), []).append(piece)
    missing = 0
    for row in rows.values():
        line = middle_line(board, showing, row[0].area, showing.row(row))
        if line is None:
            continue
        ux, uy = showing.layout.frames[row[0].area].across
        turn = math.degrees(math.atan2(uy, ux))
        is_turned = abs(upright(turn) - turn) > 1
        spots: list[Spot] = []
        for end, sign, ahead in ((line[0], -1, is_turned), (line[1], 1, not is_turned)):
            side: Side = "left" if ahead else "right"
            for far, up in ((3.4, 0.0), (9.0, 0.0), (9.0, 3.5), (9.0, -3.5), (14.0, 6.0), (14.0, -6.0)):
                at = (end[0] + sign * ux * far - uy * up, end[1] + sign * uy * far + ux * up)
                spots.append(Spot(at, upright(turn), across=side, leader_from=end))
        far_off = [spot for end in line for spot in led(end, REACHES)]
        spots += [spot for spot in far_off if not is_inside(showing.areas, board.model(spot.at))]
        words = run_words(row, numbers)
        if not board.label(words, spots, Lettering(board.letter, numbers.layer)):
            board.unplaced.append(f"C{row[0].course} {words}")
            missing += 1
    return missing


def run_words(row: Iterable[Piece], numbers: Numbers) -> str:
    """`12 to 15, 18`: the numbers of pieces, those that follow each other together."""
    runs: list[list[Piece]] = []
    for piece in sorted(row, key=lambda piece: piece.sequence):
        if runs and piece.sequence == runs[-1][-1].sequence + 1:
            runs[-1].append(piece)
        else:
            runs.append([piece])
    ends = [[numbers.words(piece)[-1] for piece in (run[0], run[-1])] for run in runs]
    return ", ".join(first if first == last else f"{first} to {last}" for first, last in ends)


def by_course(pieces: Iterable[Piece]) -> dict[int, list[Piece]]:
    """Pieces of each course, from the left."""
    rows: dict[int, list[Piece]] = {}
    for piece in sorted(pieces, key=lambda piece: (piece.course, piece.u0)):
        rows.setdefault(piece.course, []).append(piece)
    return rows


@dataclass(frozen=True, slots=True)
class Numbers:
    """How pieces are numbered: layer, paper behind or not, the ply's name before the number or not."""

    layer: str = "TEXT"
    backed: bool = False
    with_ply: bool = False

    def words(self, piece: Piece) -> tuple[str, ...]:
        """What may be written for a piece, the fullest first."""
        number = str(piece.sequence)
        return (f"{piece.ply} {number}", f"{piece.ply[:1]}{number}") if self.with_ply else (number,)


PLAIN = Numbers()


Left = tuple[Piece, Pt]


def name_pieces(board: Board, showing: Showing, pieces: Sequence[Piece], *, numbers: Numbers = PLAIN) -> list[Left]:
    """The laying number of each piece on the sheet, inside it.

    Returns: pieces too small or too crowded for a number, with their middles [mm].
    """
    left_out: list[Left] = []
    for piece in pieces:
        shown = showing.piece(piece)
        line = middle_line(board, showing, piece.area, shown)
        if line is None:
            continue
        spots = along(line, showing.layout.frames[piece.area].across)
        room = (math.dist(*line), shown.height * board.scale.per_metre)
        if not any(
            fits(words, room, style) and board.label(words, spots, style)
            for style in styles(board, numbers)
            for words in numbers.words(piece)
        ):
            left_out.append((piece, spots[0].at))
    return left_out


def styles(board: Board, numbers: Numbers) -> tuple[Lettering, ...]:
    """How a number may be written, the most readable first: large, small, small and narrow."""
    plain = [Lettering(size, numbers.layer, backed=numbers.backed) for size in (board.letter, board.smallest)]
    return (*dict.fromkeys(plain), replace(plain[-1], narrow=True))


def lead(board: Board, showing: Showing, pieces: Sequence[Piece], left_out: Sequence[Left], numbers: Numbers) -> int:
    """Numbers beside the roof: one by one with leaders while they are few, else those of each course together.

    Args:
        pieces: those that belong on the sheet.

    Returns: how many numbers or courses stay without.
    """
    if len(left_out) > MOST_LEADERS:
        rows = {course_of(piece) for piece, _ in left_out}
        return name_rows(board, showing, [piece for piece in pieces if course_of(piece) in rows], numbers)
    missing = 0
    for piece, at in left_out:
        far = list(led(at, REACHES))
        outside = [spot for spot in far if not is_inside(showing.areas, board.model(spot.at))]
        words = numbers.words(piece)[-1]
        sizes = (board.letter, board.smallest)
        if not any(board.label(words, [*outside, *far], Lettering(size, numbers.layer)) for size in sizes):
            board.unplaced.append(f"C{piece.course} {words}")
            missing += 1
    return missing


def course_of(piece: Piece) -> tuple[str, str, int]:
    """Area, ply and course of a piece."""
    return (piece.area, piece.ply, piece.course)


def along(line: tuple[Pt, Pt], across: Pt) -> list[Spot]:
    """Spots along a piece's middle."""
    (x0, y0), (x1, y1) = line
    turn = upright(math.degrees(math.atan2(across[1], across[0])))
    return [Spot((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share), turn) for share in ALONG]


def fits(words: str, room: Pt, style: Lettering) -> bool:
    """Words fit into `room`, length by height [mm]."""
    wide = text_width(words, style.height, narrow=style.narrow) + style.height * 0.5
    return wide <= room[0] and style.height * 1.25 <= room[1]
