"""How well the roof's build-up keeps the building's warmth from its surface (questions 5 and 6)."""

from __future__ import annotations

from lapwright.assembly.values import Assembly, Board
from lapwright.defaults.table import table
from lapwright.heat.contact import material


def resistance_m2k_w(board: Board | None) -> float | None:
    """Thermal resistance of a board [m²·K/W]; None where its kind or thickness is not known.

    Source: thickness over conductivity; conductivities are rows of defaults/heat.csv
    Checked: tests/published/heat.csv board-*
    """
    made_of = material(board.kind) if board else None
    if board is None or board.thickness is None or made_of is None:
        return None
    return board.thickness / made_of.conductivity


def transmittance_w_m2k(assembly: Assembly) -> float | None:
    """Heat flow from the air inside to the surface, per kelvin [W/m²·K]; None where the insulation is not known.

    The deck and the sheets are left out (a few per cent beside insulation), the cover board counts where known.
    Source: resistances in series; inside film row of defaults/heat.csv
    Checked: tests/published/heat.csv roof-*
    """
    insulation = resistance_m2k_w(assembly.insulation)
    if insulation is None:
        return None
    cover = resistance_m2k_w(assembly.cover_board) or 0.0
    return 1 / (table("heat")["inside_film"].number() + insulation + cover)
