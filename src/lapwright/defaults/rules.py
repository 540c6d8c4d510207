"""The rules of a job: every default with its origin, and what the job file puts in its place."""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

from lapwright.defaults.table import Row, table
from lapwright.defaults.values import Origin, Rules
from lapwright.units import read
from lapwright.units.unread import Unread

# Key -> kind, in the order of the job file's page.  `ticks` are lengths of the layout, `length` metres.
RULE_KINDS: Mapping[str, str] = MappingProxyType(
    {
        "ply_offset": "ticks",
        "ply_offset_at_rip": "ticks",
        "end_lap_stagger": "ticks",
        "end_lap_ply_offset": "ticks",
        "shortest_piece": "ticks",
        "longest_piece": "ticks",
        "narrowest_rip": "ticks",
        "cut_step": "ticks",
        "base_over_edge": "ticks",
        "cap_back_from_edge": "ticks",
        "edge_strip": "ticks",
        "cant": "ticks",
        "base_up_wall": "ticks",
        "cap_up_wall": "ticks",
        "flashing_height": "length",
        "spare_rolls": "count",
        "limits_hold_for": "choice",
        "dew_point_margin": "difference",
        "wind_sheets": "speed",
        "gust_stop": "speed",
        "dry_after_wet": "duration",
        "cover_within": "duration",
        "corner_cut": "ticks",
        "end_lap_drain": "ticks",
        "valley_back": "ticks",
        "over_ridge": "ticks",
        "strap_at": "slope",
        "flashing_lap_stagger": "ticks",
        "close_within": "duration",
        "roll_within": "duration",
        "lightning_wait": "duration",
        "snow_cleared_within": "duration",
        "wind_chill_stop": "temperature",
    }
)
RULE_KEYS = tuple(RULE_KINDS)
LIMITS_HOLD_FOR = ("air_and_surface", "air", "surface")
_SUFFIX = {"ticks": "_ticks", "difference": "_k", "speed": "_m_s", "duration": "_s", "temperature": "_c"}
_ABOVE_ZERO = (
    "shortest_piece",
    "longest_piece",
    "cut_step",
    "edge_strip",
    "wind_sheets",
    "gust_stop",
    "cover_within",
    "strap_at",
)
_MOST_SPARE = 1000
LONGEST_KEY = 40


@dataclass(frozen=True, slots=True)
class RuleUnread:
    """One rule that can't be read: its key, what was read, what is needed, what to write."""

    key: str
    read: str
    needs: str
    write: str


class RulesUnread(ValueError):  # noqa: N818  # becomes faults where the rules were typed
    """Every rule of a job that can't be read, in the order of the page."""

    def __init__(self, errors: Iterable[RuleUnread]) -> None:
        self.errors = tuple(errors)
        super().__init__("; ".join(f"{error.key}: needs {error.needs}" for error in self.errors))


def make_rules(given: Mapping[str, str]) -> Rules:
    """The rules of a job: `given` texts from the job file, by key, before the defaults.

    Raises: RulesUnread with every key that is not a rule, can't be read, or goes against another.
    Source: defaults/rules.csv, each row with its own
    """
    rows = table("rules")
    values: dict[str, Any] = {}
    errors = [_unknown(key, text) for key, text in given.items() if key not in RULE_KINDS]
    texts = {key: given.get(key, rows[key].text) for key in RULE_KEYS}
    for key, kind in RULE_KINDS.items():
        text = texts[key]
        try:
            values[key] = _read(key, kind, text)
        except Unread as found:
            errors.append(RuleUnread(key, text, found.needs, found.write))
    _rip_within_offset(values, texts, given)
    errors.extend(_against(values, given, rows))
    if errors:
        raise RulesUnread(errors)
    fields = {key + _SUFFIX.get(kind, ""): values[key] for key, kind in RULE_KINDS.items()}
    origins = {f"rules.{key}": _origin(rows[key], texts[key], key in given) for key in RULE_KEYS}
    return Rules(**fields, origins=MappingProxyType(origins))


def with_offset(rules: Rules, text: str, why: str) -> Rules:
    """The rules with a `ply_offset` that the job's sheets can meet in place of its default, and why it gave way."""
    given = replace(rules.origins["rules.ply_offset"], text=text, gave_way=why)
    origins = {**rules.origins, "rules.ply_offset": given}
    return replace(rules, ply_offset_ticks=read.length_ticks(text), origins=MappingProxyType(origins))


def _rip_within_offset(values: dict[str, Any], texts: dict[str, str], given: Mapping[str, str]) -> None:
    """A job that asks less than 12" between side laps everywhere asks no more of them beside a rip."""
    if "ply_offset_at_rip" in given or "ply_offset" not in values:
        return
    if values["ply_offset"] < values["ply_offset_at_rip"]:
        values["ply_offset_at_rip"] = values["ply_offset"]
        texts["ply_offset_at_rip"] = texts["ply_offset"]


def _read(key: str, kind: str, text: str) -> int | float | str:
    value = _READERS[kind](text)
    if isinstance(value, str) or kind == "temperature":
        return value
    default = table("rules")[key].text
    if value < 0 or (value == 0 and key in _ABOVE_ZERO):
        raise Unread("a value above 0" if key in _ABOVE_ZERO else "a value that is not negative", default)
    if kind == "count" and value > _MOST_SPARE:
        raise Unread(f"a count of at most {_MOST_SPARE}", default)
    return value


def _choice(text: str) -> str:
    if text.strip() not in LIMITS_HOLD_FOR:
        raise Unread("one of " + ", ".join(LIMITS_HOLD_FOR), LIMITS_HOLD_FOR[0])
    return text.strip()


_READERS: Mapping[str, Callable[[str], int | float | str]] = MappingProxyType(
    {
        "ticks": read.length_ticks,
        "length": read.length_m,
        "count": read.integer,
        "choice": _choice,
        "difference": read.temperature_difference_k,
        "speed": read.speed_m_s,
        "duration": read.duration_s,
        "temperature": read.temperature_c,
        "slope": read.slope,
    }
)


def _against(values: Mapping[str, Any], given: Mapping[str, str], rows: Mapping[str, Row]) -> list[RuleUnread]:
    """Rules that no layout can meet together, whatever the roof; told at the one that the job file gives."""
    found = []
    for small, large in (("shortest_piece", "longest_piece"), ("ply_offset_at_rip", "ply_offset")):
        if small in values and large in values and values[small] > values[large]:
            key, other = (small, large) if small in given else (large, small)
            limit = given.get(other, rows[other].text)
            words = f"no more than {other}, {limit}" if key == small else f"no less than {other}, {limit}"
            found.append(RuleUnread(key, given.get(key, rows[key].text), words, limit))
    return found


def _unknown(key: str, text: str) -> RuleUnread:
    near = difflib.get_close_matches(key[:LONGEST_KEY], RULE_KEYS, n=1, cutoff=0.0)[0]
    needs = f"a rule that is known; the nearest is {near}"
    return RuleUnread(key, text, needs, f"{near}: {table('rules')[near].text}")


def _origin(row: Row, text: str, is_given: bool) -> Origin:
    is_given = is_given or text != row.text  # ply_offset_at_rip follows a smaller ply_offset
    return Origin(
        key=f"rules.{row.name}",
        text=text,
        default=row.text,
        origin="job file" if is_given else row.origin,
        source="the job file" if is_given else row.source,
        note=row.note,
    )
