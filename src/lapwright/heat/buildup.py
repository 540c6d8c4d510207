"""The roof under its surface as a chain of points that hold heat: sheet, boards, insulation, deck (question 5).

A sheet on a board follows sun and sky within minutes, a bare concrete deck lags by hours; which of them it is follows
from the build-up alone.  Points stand at the faces of the layers and between them; each holds half of the slices
beside it.  Time goes in equal steps, every step solved backwards (implicit), so that no thin layer can swing up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from lapwright.assembly.values import Assembly, Board
from lapwright.defaults.table import table
from lapwright.heat.contact import Material, material
from lapwright.weather.values import Array

_SLICE_S = 900.0  # a slice is no thicker than heat goes in a quarter of an hour
_LEAST_SLICES, _MOST_SLICES = 2, 8


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer: what it is made of, its thickness [m]."""

    made_of: Material
    thickness: float


@dataclass(frozen=True, slots=True)
class BuildUp:
    """Layers from the surface down; inside_film [m²·K/W] under the last, None: nothing passes there."""

    layers: tuple[Layer, ...]
    inside_film: float | None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of time in a build-up of n points, the surface first.

    temperatures after = keep @ before + by_flux·(heat into the surface, W/m²) + by_inside·(air inside, °C):
    keep (n, n), by_flux [K·m²/W] and by_inside (n,).  share: of the way from outside to inside at rest, (n,).
    seconds: the length of the step.
    """

    keep: Array
    by_flux: Array
    by_inside: Array
    share: Array
    seconds: float


def build_up(assembly: Assembly) -> BuildUp:
    """The layers of a job's roof as the lowest ply lies on it.

    Sheet, cover board, insulation and deck, as far as kind and thickness are known; a deck's thickness is a default.
    Where the insulation is not known nothing passes to the inside, and the deck counts only where no board is given.
    Source: rows of defaults/heat.csv, each with its own
    Checked: tests/heat/test_surface_year.py
    """
    rows = table("heat")
    lowest = assembly.plies[0].sheet.thickness if assembly.plies else None
    layers = [_layer("sheet", lowest or rows["sheet_thickness"].number())]
    cover = _board(assembly.cover_board, is_cover=True)
    insulation = _board(assembly.insulation)
    deck = _deck(assembly)
    layers += [cover] if cover else []
    if insulation:
        layers += [insulation] + ([deck] if deck else [])
        return BuildUp(tuple(layers), rows["inside_film"].number())
    if assembly.insulation is None and assembly.cover_board is None and deck:
        layers.append(deck)
    return BuildUp(tuple(layers), None)


def bare_sheet(u_w_m2k: float) -> BuildUp:
    """A sheet of the default thickness over a resistance to the inside that holds no heat (0: nothing passes).

    Source: rows of defaults/heat.csv, each with its own
    Checked: tests/heat/test_surface_year.py
    """
    sheet = _layer("sheet", table("heat")["sheet_thickness"].number())
    return BuildUp((sheet,), 1 / u_w_m2k if u_w_m2k > 0 else None)


def resistance_m2k_w(built: BuildUp) -> float:
    """Thermal resistance from the surface to the air inside [m²·K/W]; infinite where nothing passes.

    Source: arithmetic
    """
    if built.inside_film is None:
        return math.inf
    return sum(layer.thickness / layer.made_of.conductivity for layer in built.layers) + built.inside_film


def step_of(built: BuildUp, seconds: float) -> Step:
    """What one step of time does to the points of a build-up.

    Source: conduction in layers, finite volumes, backward Euler step (Patankar 1980, ch. 4) [from memory]
    Checked: tests/heat/test_surface_year.py
    """
    conductances, capacities = _slices(built)
    count = len(capacities)
    flow = np.zeros((count, count))
    for upper, conductance in enumerate(conductances):
        pair = np.ix_([upper, upper + 1], [upper, upper + 1])
        flow[pair] += conductance * np.array([[1.0, -1.0], [-1.0, 1.0]])
    inside = np.zeros(count)
    share: Array = np.zeros(count)
    if built.inside_film is not None:
        inside[-1] = 1 / built.inside_film
        resistances = np.concatenate([[0.0], np.cumsum(1 / np.array(conductances, dtype=np.float64))])
        share = np.asarray(resistances / (resistances[-1] + built.inside_film), dtype=np.float64)
    held = np.diag(np.array(capacities) / seconds)
    solved = np.asarray(np.linalg.inv(held + flow + np.diag(inside)), dtype=np.float64)
    return Step(solved @ held, solved[:, 0].copy(), solved @ inside, share, seconds)


def _slices(built: BuildUp) -> tuple[list[float], list[float]]:
    """Conductance between neighbouring points [W/m²·K], and what each point holds [J/m²·K]."""
    conductances: list[float] = []
    capacities = [0.0]
    for layer in built.layers:
        made_of = layer.made_of
        held = made_of.density * made_of.specific_heat
        reach = math.sqrt(made_of.conductivity / held * _SLICE_S)
        count = min(max(math.ceil(layer.thickness / reach), _LEAST_SLICES), _MOST_SLICES)
        thickness = layer.thickness / count
        for _ in range(count):
            conductances.append(made_of.conductivity / thickness)
            capacities[-1] += held * thickness / 2
            capacities.append(held * thickness / 2)
    return conductances, capacities


def _layer(kind: str, thickness: float) -> Layer:
    made_of = material(kind)
    if made_of is None:
        raise ValueError(f"no rows for {kind} in defaults/heat.csv")
    return Layer(made_of, thickness)


def _board(board: Board | None, *, is_cover: bool = False) -> Layer | None:
    """A board whose kind and thickness are known."""
    if board is None or board.thickness is None:
        return None
    made_of = material("polyiso board" if is_cover and board.kind == "polyiso" else board.kind)
    return None if made_of is None else Layer(made_of, board.thickness)


def _deck(assembly: Assembly) -> Layer | None:
    """The deck, by the default thickness of its kind."""
    kind = assembly.deck.kind if assembly.deck else None
    row = table("heat").get(f"deck_thickness_{kind}")
    made_of = material(kind)
    return None if row is None or made_of is None else Layer(made_of, row.number())
