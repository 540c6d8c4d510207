"""The figures for the roof in `plan.json`: what the page has and no other key."""

from __future__ import annotations

from lapwright.packet.figurevalues import ChillTable, FieldFigures, OperationLimits, RollTable, StoreTable, WayOut
from lapwright.packet.layoutjson import Json


def figures_entry(figures: FieldFigures) -> Json:
    """Every table of the page that stands nowhere else; weld speeds and cords are in `tools`."""
    return {
        "rolls": [roll_entry(one) for one in figures.rolls],
        "store": [store_entry(one) for one in figures.store],
        "chill": None if figures.chill is None else chill_entry(figures.chill),
        "ways_out": [way_entry(one) for one in figures.ways_out],
        "limits": [limit_entry(one) for one in figures.limits],
        "lacking": {name: list(keys) for name, keys in figures.lacking.items()},
    }


def roll_entry(one: RollTable) -> Json:
    """One sheet's clock."""
    return {
        "sheet": one.sheet,
        "stored_c": one.stored_c,
        "until_c": one.until_c,
        "cover_w_m2k": one.cover_w_m2k,
        "airs_c": list(one.airs_c),
        "winds_m_s": list(one.winds_m_s),
        "lasts_s": [list(row) for row in one.lasts_s],
    }


def store_entry(one: StoreTable) -> Json:
    """One sheet's hours in the store."""
    return {
        "sheet": one.sheet,
        "store_c": one.store_c,
        "until_c": one.until_c,
        "stands": list(one.stands),
        "own": one.own,
        "colds_c": list(one.colds_c),
        "core_s": [list(row) for row in one.core_s],
    }


def chill_entry(chill: ChillTable) -> Json:
    """Wind chill and frostbite."""
    return {
        "airs_c": list(chill.airs_c),
        "winds_m_s": list(chill.winds_m_s),
        "chills_c": [list(row) for row in chill.chills_c],
        "frostbite_min": [list(row) for row in chill.frostbite_min],
    }


def way_entry(way: WayOut) -> Json:
    """One way out for water."""
    return {
        "area": way.area,
        "name": way.name,
        "kind": way.kind,
        "storm": way.storm,
        "outlets": way.outlets,
        "flow_m3_s": way.flow_m3_s,
        "asked_m3_s": way.asked_m3_s,
        "passes_m3_s": way.passes_m3_s,
        "head": way.head,
        "load_pa": way.load_pa,
        "lacking": list(way.lacking),
    }


def limit_entry(one: OperationLimits) -> Json:
    """One operation's limits."""
    return {
        "operation": one.operation,
        "apply_c": one.apply_c,
        "warm_c": one.warm_c,
        "heat_c": one.heat_c,
        "by_air": one.by_air,
        "by_surface": one.by_surface,
        "lacking": list(one.lacking),
    }
