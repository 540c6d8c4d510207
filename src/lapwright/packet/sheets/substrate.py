"""What every section shares: deck, boards, plies with their names; thin things drawn thicker than they are."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from lapwright.assembly.values import Assembly, Board, Ply, Sheet
from lapwright.packet.drawing import Pattern, Points, Pt, rectangle
from lapwright.packet.sheets.section import Section, break_line
from lapwright.packet.values import Paper
from lapwright.units.write import Units

THICKER = 4  # plies are drawn so many times as thick as they are
TWO_FEET = 0.61  # [m]
NOT_GIVEN = "thickness not given"
SHEET_SHOWN, BOARD_SHOWN, DECK_SHOWN = (
    0.003,
    0.025,
    0.055,
)  # drawn where none is given; decks never have one [m]
DECKS: Mapping[str | None, Pattern] = MappingProxyType(
    {"concrete": "concrete", "gypsum": "faint", "plywood": "wood", "plank": "wood", "steel": "diagonal", None: "faint"}
)
PLIES: Mapping[str, Pattern] = MappingProxyType(
    {"base": "diagonal", "interply": "back", "cap": "solid", "strip": "cross"}
)
REMARK = f"Plies and strips are drawn {THICKER} times as thick as they are; everything else is to scale."


@dataclass(frozen=True, slots=True)
class Job:
    """What a section is drawn from: the paper, its units, and what it takes from them again and again."""

    paper: Paper
    units: Units

    @property
    def assembly(self) -> Assembly:
        """The build-up."""
        return self.paper.assembly

    @property
    def field_plies(self) -> tuple[Ply, ...]:
        """Plies, bottom first."""
        return self.paper.assembly.plies

    def rule(self, name: str) -> float:
        """A rule of the layout, by its key [m]."""
        return float(getattr(self.paper.rules, f"{name}_ticks")) / 80_000

    def words(self, metres: float) -> str:
        """A length of a detail, in inches or millimetres: 18", not 1' 6"."""
        return self.units.width(round(metres * 80_000))

    def tall(self, metres: float) -> str:
        """A height: in feet as well where it is over 2 feet."""
        return self.words(metres) if metres < TWO_FEET else self.units.length(metres)


def drawn_thickness(sheet: Sheet) -> float:
    """How thick a sheet is drawn [m]."""
    return (SHEET_SHOWN if sheet.thickness is None else sheet.thickness) * THICKER


def sheet_words(name: str, sheet: Sheet, units: Units) -> str:
    """`base ply: base-sa, 1.5 mm thick`."""
    thick = NOT_GIVEN if sheet.thickness is None else f"{units.thickness(sheet.thickness)} thick"
    return f"{name}: sheet {sheet.name}, {thick}"


def substrate(section: Section, job: Job, left: float, right: float, *, side: str = "left") -> float:
    """Boards and deck below the line y = 0, from left to right [m]; returns how deep they go."""
    y = 0.0
    assembly = job.assembly
    boards: tuple[tuple[Board | None, str, Pattern], ...] = (
        (assembly.cover_board, "cover board", "board"),
        (assembly.insulation, "insulation", "insulation"),
    )
    for board, name, pattern in boards:
        if board is not None:
            y = lay_board(section, job, board, (left, y, right), (name, pattern, side))
    deck = assembly.deck
    kind = deck.kind if deck is not None else None
    section.part(rectangle(left, y - DECK_SHOWN, right - left, DECK_SHOWN), DECKS.get(kind, "faint"))
    section.line(break_line((left, y - DECK_SHOWN), (right, y - DECK_SHOWN), 0.008), weight="thin")
    section.note((left + (right - left) * 0.2, y - DECK_SHOWN * 0.55), deck_words(job), side)
    return -(y - DECK_SHOWN)


def lay_board(
    section: Section, job: Job, board: Board, span: tuple[float, float, float], look: tuple[str, Pattern, str]
) -> float:
    """A board under a line (from, height, to), with its name, hatch and column; returns its underside [m]."""
    left, y, right = span
    name, pattern, side = look
    thick = board.thickness if board.thickness is not None else BOARD_SHOWN
    section.part(rectangle(left, y - thick, right - left, thick), pattern)
    words = ", ".join(
        part
        for part in (
            f"{name}: {board.kind}" if board.kind else name,
            job.units.length(board.thickness) if board.thickness is not None else NOT_GIVEN,
            board.attachment and board.attachment.replace("_", " "),
        )
        if part
    )
    section.note((left + (right - left) * 0.12, y - thick / 2), words, side)
    return y - thick


def deck_words(job: Job) -> str:
    """What the deck is called."""
    deck = job.assembly.deck
    if deck is None or deck.kind is None:
        return "deck: kind not given"
    nailable = {True: ", nailable", False: ", not nailable", None: ""}[deck.nailable]
    return f"deck: {deck.kind}{nailable}"


def middle(ring: Points) -> Pt:
    """The middle of a polygon's upright bounds."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
