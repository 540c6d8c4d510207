"""How closely lengths are compared, and the rules of a job in metres."""

from __future__ import annotations

import math
from dataclasses import dataclass

from lapwright.defaults.si import default_si
from lapwright.defaults.values import Rules
from lapwright.units.factors import TICKS_PER_METRE


@dataclass(frozen=True, slots=True)
class Limits:
    """The rules that a layout can break [m], and the tolerances [m].

    close: lengths nearer than this are equal.  gap: narrower than this no gap or overhang counts.
    strap_at: slope, rise over run, from which courses run with the fall.
    slit: an opening shorter along the course than the end lap and this is slit.  slit_depth: so is a hole no deeper.
    turn_up: from a wall's line to where the ply ends, laid flat, without the up-wall part.
    """

    ply_offset: float
    ply_offset_at_rip: float
    end_lap_stagger: float
    end_lap_ply_offset: float
    shortest_piece: float
    longest_piece: float
    narrowest_rip: float
    cut_step: float
    base_over_edge: float
    cap_back_from_edge: float
    base_up_wall: float
    cap_up_wall: float
    corner_cut: float
    end_lap_drain: float
    valley_back: float
    over_ridge: float
    strap_at: float
    turn_up: float
    close: float
    gap: float
    slit: float
    slit_depth: float


def limits_of(rules: Rules) -> Limits:
    """The rules of a job in metres, with the tolerances of defaults/rulecheck.csv."""
    return Limits(
        ply_offset=metres(rules.ply_offset_ticks),
        ply_offset_at_rip=metres(rules.ply_offset_at_rip_ticks),
        end_lap_stagger=metres(rules.end_lap_stagger_ticks),
        end_lap_ply_offset=metres(rules.end_lap_ply_offset_ticks),
        shortest_piece=metres(rules.shortest_piece_ticks),
        longest_piece=metres(rules.longest_piece_ticks),
        narrowest_rip=metres(rules.narrowest_rip_ticks),
        cut_step=metres(rules.cut_step_ticks),
        base_over_edge=metres(rules.base_over_edge_ticks),
        cap_back_from_edge=metres(rules.cap_back_from_edge_ticks),
        base_up_wall=metres(rules.base_up_wall_ticks),
        cap_up_wall=metres(rules.cap_up_wall_ticks),
        corner_cut=metres(rules.corner_cut_ticks),
        end_lap_drain=metres(rules.end_lap_drain_ticks),
        valley_back=metres(rules.valley_back_ticks),
        over_ridge=metres(rules.over_ridge_ticks),
        strap_at=rules.strap_at,
        # the face of a cant with legs c is c·√2 long and begins c before the wall's line
        turn_up=metres(rules.cant_ticks) * (math.sqrt(2.0) - 1.0),
        close=default_si("rulecheck", "length_tolerance"),
        gap=default_si("rulecheck", "gap_tolerance"),
        slit=default_si("rulecheck", "slit_margin"),
        slit_depth=default_si("roof", "slit_depth"),
    )


def metres(ticks: float) -> float:
    """Ticks in metres."""
    return ticks / TICKS_PER_METRE
