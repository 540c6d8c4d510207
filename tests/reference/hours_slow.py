"""The state of one hour and operation, asked one question at a time: the plain version that the fast one must match."""

import math
from typing import Any

SHEETS = ("base", "interply", "cap", "side_lap", "end_lap", "flashing")
HANDLED_IN_THE_WIND = ("base", "interply", "cap", "flashing", "edge_metal")
LEAVES_OPEN = ("primer", "base", "interply", "cap")
ON_A_BASE = ("cap", "side_lap", "end_lap")


def state_of(operation: str, hour: dict[str, Any], limits: tuple[Any, Any, Any], rules: dict[str, Any]) -> str:
    """`open`, `warm`, `heat` or `shut` of an operation in an hour whose readings are plain numbers and flags."""
    if limits[0] is None or not is_reported(hour) or not bears_people(hour, rules) or not is_dry(hour, rules):
        return "shut"
    if operation in LEAVES_OPEN and hour["until_falling_h"] * 3600 < rules["close_within_s"]:
        return "shut"
    if operation in HANDLED_IN_THE_WIND and hour["wind_m_s"] > rules["wind_sheets_m_s"]:
        return "shut"
    if operation in ON_A_BASE and min(hour["since_wet_h"], hour["since_unknown_h"]) * 3600 < rules["dry_after_wet_s"]:
        return "shut"
    return by_temperature(operation, hour, limits, rules)


def is_reported(hour: dict[str, Any]) -> bool:
    """The hour is there, with all that is asked of it."""
    names = ("air_c", "surface_c", "wetting_c", "wind_m_s")
    return not hour["absent"] and not hour["rain_unknown"] and not any(math.isnan(hour[name]) for name in names)


def bears_people(hour: dict[str, Any], rules: dict[str, Any]) -> bool:
    """Light, no thunder, no gust, no cold that sends people home."""
    if not hour["daylight"] or hour["thunder"] or hour["since_thunder_h"] * 3600 < rules["lightning_wait_s"]:
        return False
    if hour["wind_m_s"] > rules["gust_stop_m_s"] or hour["gust_m_s"] > rules["gust_stop_m_s"]:
        return False
    return not hour["chill_c"] < rules["wind_chill_stop_c"] and hour["work_min"] > 0


def is_dry(hour: dict[str, Any], rules: dict[str, Any]) -> bool:
    """Nothing falls, nothing lies, nothing is left, and dew and frost are a margin away."""
    if hour["falling"] or hour["snow_lying"] or hour["film_mm"] > 0.005:
        return False
    return (
        hour["surface_c"] > hour["wetting_c"] and hour["surface_c"] >= hour["wetting_c"] + rules["dew_point_margin_k"]
    )


def by_temperature(operation: str, hour: dict[str, Any], limits: tuple[Any, Any, Any], rules: dict[str, Any]) -> str:
    """The state by the limits, for laps when they are laid and when they are rolled."""
    rule = rules["limits_hold_for"] if operation in SHEETS else "air_and_surface"
    air, surface = [hour["air_c"]], [hour["surface_c"]]
    if operation in SHEETS:  # laps are rolled a while after they are laid
        air += [value for value in [hour["air_then_c"]] if not math.isnan(value)]
        surface += [value for value in [hour["surface_then_c"]] if not math.isnan(value)]
    temperatures = {"air": air, "surface": surface, "air_and_surface": air + surface}[rule]
    for limit, word in zip(limits, ("open", "warm", "heat"), strict=True):
        if limit is not None and all(value >= limit for value in temperatures):
            return word
    return "shut"
