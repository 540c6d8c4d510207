"""Weld speeds, cords and power as `plan.json` has them; the schema beside."""

from __future__ import annotations

from typing import Any

from lapwright.packet.toolvalues import CordTable, SupplyTable, Tools, WeldTable

Json = dict[str, Any]


def tools_entry(tools: Tools) -> Json:
    """Each table, or null and the keys to give."""
    return {
        "weld": None if tools.weld is None else weld_entry(tools.weld),
        "cord": None if tools.cord is None else cord_entry(tools.cord),
        "supply": None if tools.supply is None else supply_entry(tools.supply),
        "lacking": {name: list(keys) for name, keys in tools.lacking.items()},
    }


def weld_entry(weld: WeldTable) -> Json:
    """The test weld and the speeds that follow from it."""
    return {
        "proved_speed_m_s": weld.proved_speed_m_s,
        "proved_sheet_c": weld.proved_sheet_c,
        "proved_air_c": weld.proved_air_c,
        "nozzle_c": weld.nozzle_c,
        "holds_nozzle": weld.holds_nozzle,
        "slowest_m_s": weld.slowest_m_s,
        "fastest_m_s": weld.fastest_m_s,
        "volts_lost_shares": list(weld.shares),
        "rows": [{"sheet_c": row.sheet_c, "speeds_m_s": list(row.speeds)} for row in weld.rows],
        "days": [
            {
                "number": day.number,
                "hours": [
                    {"clock": clock, "sheet_c": day.sheets[clock], "speed_m_s": speed}
                    for clock, speed in day.speeds.items()
                ],
            }
            for day in weld.days
        ],
        "retest_k": weld.retest_k,
        "source": weld.source,
    }


def cord_entry(cords: CordTable) -> Json:
    """What cords leave of a tool."""
    return {
        "load_w": cords.load_w,
        "volts_v": cords.volts,
        "current_a": cords.amps,
        "lengths_m": list(cords.lengths),
        "rows": [
            {
                "gauge": row.gauge,
                "drop_shares": list(row.drop_shares),
                "heat_lost_shares": list(row.heat_lost),
                "longest_3_pct_m": row.longest_3,
                "longest_5_pct_m": row.longest_5,
                "carries_a": row.carries_a,
                "overloaded": row.is_overloaded,
            }
            for row in cords.rows
        ],
        "own": None
        if cords.own_drop_share is None
        else {
            "gauge": cords.own_gauge,
            "length_m": cords.own_length,
            "drop_share": cords.own_drop_share,
            "heat_lost_share": cords.own_heat_lost,
        },
        "source": cords.source,
    }


def supply_entry(power: SupplyTable) -> Json:
    """Generator, circuits, fuel."""
    return {
        "supply": power.supply,
        "tools": power.tools,
        "running_w": power.running_w,
        "starting_w": power.starting_w,
        "needed_w": power.here_w,
        "size_w": power.size_w,
        "generator_w": power.generator_w,
        "circuit_a": power.breaker_a,
        "fuel_low_m3_s": power.fuel_low_m3_s,
        "fuel_high_m3_s": power.fuel_high_m3_s,
        "source": power.source,
    }
