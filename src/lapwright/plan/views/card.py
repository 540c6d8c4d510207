"""What there is to know of one piece, lap, T-joint or detail: the card that is shown where one points."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from lapwright.crew.rates import rate_of
from lapwright.faults import Fault, Refused
from lapwright.layout.values import Detail, Lap, Layout, Piece, TJoint
from lapwright.packet.values import Paper
from lapwright.plan.desk.stages import FIRST, JobAsk, Stages
from lapwright.plan.fitness import rates_of
from lapwright.plan.views.registry import Json, Tell
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

Row = tuple[str, str]


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The card of an id (option `id`).

    Raises: Refused where nothing has this id, or with every fault of the job
    """
    job, _ = stages.read(ask)
    paper = stages.laid(ask, patience=FIRST)
    rates = rates_of(job)
    asked = options.get("id", "")
    card = Card(paper, rate_of(rates, "weld"), is_given="weld" in rates).of(asked)
    if card is None:
        raise Refused([Fault("", 0, 0, "id", asked, "the id of a piece, lap, T-joint or detail of this layout", "")])
    title, rows = card
    return {"id": asked, "title": title, "rows": [list(row) for row in rows]}


class Card:
    """Cards of one layout."""

    def __init__(self, paper: Paper, weld_m_s: float, *, is_given: bool) -> None:
        self.layout: Layout = paper.layout
        self.paper = paper
        self.units = Units(paper.head.units)
        self.weld_m_s = weld_m_s
        self.origin = "crew.rates" if is_given else "the default of crew.rates"

    def of(self, asked: str) -> tuple[str, list[Row]] | None:
        """Title and rows of what has this id; None where nothing has."""
        layout = self.layout
        for found in layout.pieces:
            if found.id == asked:
                return (f"piece {found.sequence}", list(self.piece(found)))
        for lap in layout.laps:
            if lap.id == asked:
                return (f"{lap.kind} lap", list(self.lap(lap)))
        for joint in layout.tjoints:
            if joint.id == asked:
                return ("T-joint", list(self.joint(joint)))
        for detail in layout.details:
            if detail.id == asked:
                return (detail.kind.replace("_", " "), list(self.detail(detail)))
        return None

    def piece(self, piece: Piece) -> Iterable[Row]:
        """A piece of a ply."""
        units = self.units
        sheet = self.paper.sheets[piece.sheet]
        width = piece.v1 - piece.v0
        yield ("id", piece.id)
        yield ("where", f"{piece.area}, {piece.ply}, course {piece.course}, piece {piece.place} from the left")
        yield ("laid as", f"number {piece.sequence} of {len(self.layout.pieces)}")
        yield ("cut off the roll", units.tape(piece.cut_length))
        yield ("width", units.width(width) + ("" if width == sheet.width_ticks else ", ripped"))
        yield ("roll", f"{piece.roll} of {piece.sheet}")
        for cut in piece.corner_cuts:
            yield ("corner cut", f"{units.tape(cut.along)} along, {units.tape(cut.across)} across")
        laps = [lap for lap in self.layout.laps if piece.id in lap.pieces]
        for kind in dict.fromkeys(lap.kind for lap in laps):
            same = [lap for lap in laps if lap.kind == kind]
            yield (f"{kind} laps", f"{len(same)}, together {units.length(sum(lap.length for lap in same))}")
        welded = sum(lap.length for lap in laps if lap.pieces[1] == piece.id or lap.pieces[0] == piece.id)
        yield ("welding its laps", self.welding(welded))

    def lap(self, lap: Lap) -> Iterable[Row]:
        """A lap."""
        yield ("id", lap.id)
        yield ("where", f"{lap.area}, {lap.ply}")
        yield ("between", " and ".join(lap.pieces))
        yield ("length", self.units.length(lap.length))
        yield ("width", self.units.width(round(lap.width * TICKS_PER_METRE)))
        yield ("welding it", self.welding(lap.length))

    def joint(self, joint: TJoint) -> Iterable[Row]:
        """A T-joint."""
        yield ("id", joint.id)
        yield ("where", f"{joint.area}, {joint.ply}")
        yield ("laps", " and ".join(joint.laps))
        yield ("kind", "of the field" if joint.kind == "field" else "a detail's lap over a lap of the ply under it")

    def detail(self, detail: Detail) -> Iterable[Row]:
        """A strip, flashing, corner or length of metal."""
        yield ("id", detail.id)
        yield ("where", f"{detail.area}, {detail.of}" + (f", on the {detail.ply}" if detail.ply else ""))
        if detail.length:
            yield ("size", f"{self.units.length(detail.length)} by {self.units.length(detail.width)}")
        for name, part in detail.parts.items():
            yield (name.replace("_", " "), self.units.length(part))
        if detail.roll:
            yield ("roll", f"{detail.roll} of {detail.sheet}")

    def welding(self, length: float) -> str:
        """How long welding takes at the crew's rate; the morning's test weld decides."""
        speed = self.units.travel(self.weld_m_s)
        return f"{self.units.duration(length / self.weld_m_s)} at {speed} by {self.origin}, one tool"
