"""A plan on its paper: where the roof, its legend and its labels stand, and at which scale.

The roof takes the larger part of the sheet, the legend a column at its right or a strip below it, whichever leaves the
roof the larger scale.  North is up.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from lapwright.packet.drawing import Item, Plate, Pt, Text, View
from lapwright.packet.lettering import clean, fitted, wrapped
from lapwright.packet.sheets.clip import Box, clip_segment, clipped, is_in
from lapwright.packet.sheets.labels import Field, Lettering, Spot
from lapwright.packet.sheets.legend import GAP, Entry, entry_height, legend, list_entry
from lapwright.packet.sheets.scales import LAYER, Scale, bar_scale, fitting, north_arrow, plan_scales

Window = Box
COLUMN, STRIP, APART = 47.0, 38.0, 3.0
MARGIN = 10.0  # paper around the roof for edge words and course numbers [mm]
HEAD, TITLE_STEP = 3.2, 4.6
MOST_BELOW = 5  # lines of the head that a strip below the roof has room for
MOST_LINES, MOST_LETTERS = 10, 60  # of the list of what found no room: its lines, and the letters of each entry
SMALLEST = 1.8  # capitals are never lower than this on a plan [mm]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a sheet keeps its roof: lower left, size [mm]; legend at the right or below."""

    x: float
    y: float
    width: float
    height: float
    legend_below: bool


@dataclass(slots=True)
class Board:
    """A plan being drawn: items in millimetres, the labels' field, the view from metres.

    foot: height kept free at the foot of the legend's column [mm].  part, parts: which part of the roof it shows of how
    many; 0 where it shows the whole.  unplaced: words for which no room was found; they are listed in the legend.
    """

    width: float
    height: float
    place: Place
    window: Window
    scale: Scale
    units: str
    letter: float = 2.0
    smallest: float = SMALLEST
    cropped: bool = False
    foot: float = 0.0
    part: int = 0
    parts: int = 0
    unplaced: list[str] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    marks: list[Item] = field(default_factory=list)

    view: View = field(init=False)
    field: Field = field(init=False)

    def __post_init__(self) -> None:
        """The window's middle comes to the middle of the place."""
        left, low, right, high = self.window
        centre = (self.place.x + self.place.width / 2, self.place.y + self.place.height / 2)
        self.view = View(self.scale.per_metre, ((left + right) / 2, (low + high) / 2), centre)
        p = self.place
        self.field = Field(p.x, p.y, p.x + p.width, p.y + p.height)

    @property
    def mm(self) -> float:
        """Metres to a millimetre of paper."""
        return 1 / self.scale.per_metre

    @property
    def box(self) -> Box:
        """The paper that the window takes [mm]; on a sheet that is not cropped, the whole place."""
        if not self.cropped:
            return (self.field.left, self.field.low, self.field.right, self.field.high)
        low, high = self.view.point(self.window[:2]), self.view.point(self.window[2:])
        return (*low, *high)

    def draw(self, model_items: Iterable[Item]) -> None:
        """Model items [m] onto the paper, cut off at the window of a cropped sheet."""
        items = self.view.items(model_items)
        self.items += clipped(items, self.box) if self.cropped else items

    def shows(self, point: Pt) -> bool:
        """A model point [m] is on the sheet."""
        return is_in(self.view.point(point), self.box)

    def shown(self, a: Pt, b: Pt) -> tuple[Pt, Pt] | None:
        """The part of a model line [m] that is on the sheet [mm]."""
        return clip_segment(self.view.point(a), self.view.point(b), self.box)

    def model(self, at: Pt) -> Pt:
        """The model point [m] under a paper point [mm]."""
        origin, corner, per_metre = self.view.origin, self.view.at, self.view.per_metre
        return (origin[0] + (at[0] - corner[0]) / per_metre, origin[1] + (at[1] - corner[1]) / per_metre)

    def label(self, words: str, spots: Iterable[Spot], style: Lettering) -> bool:
        """Write a label at its first free spot; false where none is free."""
        written = self.field.write(words, spots, style)
        self.marks += written
        return bool(written)

    def name(self, words: str, spots: Iterable[Spot], style: Lettering) -> bool:
        """The same; words without a free spot go to the list."""
        written = self.label(words, spots, style)
        if not written:
            self.unplaced.append(words)
        return written

    def titled(self, title: str) -> str:
        """A title with the part that the sheet shows."""
        return f"{title}, part {self.part} of {self.parts}" if self.part else title

    def plate(self, title: str, head: Sequence[str], entries: Sequence[Entry]) -> Plate:
        """The finished sheet: roof, labels over it, head, bar scale, north arrow and legend."""
        title = self.titled(title)
        listed = [list_entry(words) for words in list_words(self.unplaced, self.letter)]
        items = (*self.items, *self.marks, *side_matter(self, [title, *head], [*listed, *entries]))
        return Plate(self.width, self.height, items, title, self.scale.text, self.part)

    def left_out(self, title: str, entries: Sequence[Entry]) -> list[Entry]:
        """Entries for which the legend of a sheet with this title has no room, once all labels are written."""
        listed = [list_entry(words) for words in list_words(self.unplaced, self.letter)]
        _, height, columns = legend_room(self, head_foot(self, self.titled(title)))
        every = [*listed, *entries]
        return every[len(those_that_fit(every, height, columns, self.letter)) :]


def make_board(
    window: Window, units: str, *, width: float, height: float, letter: float = 2.0, cropped_at: Scale | None = None
) -> Board:
    """A board for a window of the roof [m] on paper of a size [mm]; cropped at a scale, or whole at the best."""
    size = (window[2] - window[0], window[3] - window[1])
    beside, below = places(width, height)
    if cropped_at is not None:
        return Board(width, height, beside, window, cropped_at, units, letter, cropped=True)
    found = [(fitting(plan_scales(units), size, room(place)), place) for place in (beside, below)]
    scale, place = min(found, key=lambda pair: pair[0].ratio)
    return Board(width, height, place, window, scale, units, letter)


def places(width: float, height: float) -> tuple[Place, Place]:
    """Where the roof may stand: beside the legend, or above it."""
    return (
        Place(0.0, 0.0, width - COLUMN - APART, height, False),
        Place(0.0, STRIP + APART, width, height - STRIP - APART, True),
    )


def room(place: Place) -> Pt:
    """What is left for the roof itself inside the margins [mm]."""
    return (max(10.0, place.width - 2 * MARGIN), max(10.0, place.height - 2 * MARGIN))


def side_matter(board: Board, head: Sequence[str], entries: Sequence[Entry]) -> tuple[Item, ...]:
    """Head lines, north arrow, bar scale and legend."""
    x, top = head_corner(board)
    head = head[:MOST_BELOW] if board.place.legend_below else head
    items: list[Item] = []
    y = top - HEAD
    for line in title_lines(head[0]):
        items.append(Text((x, y), line, HEAD, LAYER))
        y -= TITLE_STEP
    for line in head[1:]:
        items.append(Text((x, y), fitted(line, board.letter, COLUMN), board.letter, LAYER))
        y -= board.letter * 1.6
    y -= 8.0
    items += north_arrow((x + 4.0, y), 3.2)
    bar_at = (x + 11.0, y - 2.4)
    items += bar_scale(board.scale, board.units, bar_at, COLUMN - 16.0, letter=min(board.letter, 2.55))
    items.append(Text((x, y - 8.0), f"Scale {board.scale.text}", board.letter, LAYER))
    at, room_for, columns = legend_room(board, y)
    shown = those_that_fit(entries, room_for, columns, board.letter)
    return (*items, *legend(shown, at, width=COLUMN, height=room_for, letter=board.letter))


def head_corner(board: Board) -> Pt:
    """The upper left of the head [mm]."""
    return (0.0, STRIP) if board.place.legend_below else (board.width - COLUMN, board.height)


def head_foot(board: Board, title: str) -> float:
    """How low a head of a title alone comes down to the north arrow [mm]."""
    return head_corner(board)[1] - HEAD - len(title_lines(title)) * TITLE_STEP - 8.0


def title_lines(title: str) -> list[str]:
    """A title broken to fit over the legend."""
    return wrapped(clean(title), HEAD, COLUMN)[:2]


def legend_room(board: Board, foot: float) -> tuple[Pt, float, int]:
    """The upper left of the legend, its height and columns, below a head that comes down to `foot` [mm]."""
    x, top = head_corner(board)
    if board.place.legend_below:
        columns = int((board.width - COLUMN - 6.0 + GAP) // (COLUMN + GAP))
        return (x + COLUMN + 6.0, top), STRIP - 1.0, columns
    return (x, foot - 13.0), foot - 13.0 - board.foot, 1


def list_words(unplaced: Sequence[str], letter: float) -> list[str]:
    """The list of what found no room on the drawing, one entry or none; numbers of pieces come first."""
    found = dict.fromkeys(shortened(clean(words), MOST_LETTERS) for words in unplaced)
    words = sorted(found, key=lambda one: re.match(r"C\d", one) is None)
    for count in range(len(words), 0, -1):
        more = f"; and {len(words) - count} more" if count < len(words) else ""
        text = f"No room on the drawing for: {'; '.join(words[:count])}{more}."
        if len(wrapped(text, letter, COLUMN)) <= MOST_LINES:
            return [text]
    return [f"No room on the drawing for {len(words)} labels."] if words else []


def shortened(words: str, most: int) -> str:
    """Words of at most so many letters."""
    return words if len(words) <= most else words[: most - 2].rstrip() + ".."


def those_that_fit(entries: Sequence[Entry], height: float, columns: int, letter: float) -> list[Entry]:
    """As many entries, from the first, as the columns of the legend hold; the most needed come first."""
    shown: list[Entry] = []
    column, used = 0, 0.0
    for entry in entries:
        tall = entry_height(entry, COLUMN, letter)
        if used + tall > height and used > 0:
            column, used = column + 1, 0.0
        if column >= columns:
            break
        used += tall
        shown.append(entry)
    return shown


def windows_of(points: Iterable[Pt]) -> Window:
    """The upright bounds of points; a metre about nothing."""
    found = list(points)
    if not found:
        return (0.0, 0.0, 1.0, 1.0)
    xs, ys = [x for x, _ in found], [y for _, y in found]
    return (min(xs), min(ys), max(max(xs), min(xs) + 0.1), max(max(ys), min(ys) + 0.1))
