"""What the keys of a job file are called on the sheet that describes a job, where the key alone does not say it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from lapwright.job.crosscheck import GROUPS
from lapwright.job.tree import Path
from lapwright.packet.sheets.edges import WORDS

# The last key of a path, or its last two where one alone means several things.
LABELS: Mapping[str, str] = MappingProxyType(
    {
        "job.name": "Name of the job",
        "job.number": "Number",
        "job": "Title block",
        "units": "Units written out",
        "area": "Name of the area",
        "start": "Where its first corner lies",
        "falls": "Falls towards",
        "at": "Place",
        "size": "Size",
        "from_start": "From the start of the side",
        "sill": "Sill above the roof",
        "side": "In side",
        "day": "Working hours",
        "days": "Working days",
        "crew.start": "First working day",
        "people": "People",
        "welders": "Welders among them",
        "apply_at_or_above": "Nothing special at or above",
        "warm_rolls_at_or_above": "From warm rolls down to",
        "with_heat_at_or_above": "With welded laps down to",
        "materials.apply_at_or_above": "Not used below",
        "year": "Bundled year",
        "file": "Weather file",
        "rain_primary": "Rain for the drains",
        "rain_secondary": "Rain for the overflows",
        "wind_speed": "Basic wind speed",
        "topographic": "Topographic factor Kzt",
        "aim": "Laid out for",
        "1'": "Zone 1'",
        "1": "Zone 1, field",
        "2": "Zone 2, edges",
        "3": "Zone 3, corners",
        "plies": "Plies, bottom first",
        "ply": "Which ply",
        "sheets": "Sheets, as their data sheets say",
        "assembly": "Build-up",
        "store": "Warm store",
        "weld": "Test weld",
        "power": "Power",
        "roof_height": "Height above the ground",
        "outward": "Held outward",
        "labour_hour": "An hour of one person",
        "prices.primer": "A pail of primer",
        "prices.mastic": "A pail of mastic",
        "prices.caulk": "A tube of caulk",
        "prices.granules": "A bag of granules",
        "prices.fasteners": "A box of fasteners",
        "prices.edge_metal": "A length of edge metal",
        "work": "Kind of work",
        "paper": "Paper",
        "dxf": "DXF drawing",
        "geojson": "GeoJSON file",
        "areas": "Drawn areas",
        "areas.units": "Unit of the drawing",
        "outline.units": "Unit of the drawing",
    }
)
# Key -> the table and row of its default, where the models only show the value.
DEFAULTS_OF: Mapping[str, tuple[str, str]] = MappingProxyType(
    {
        "layout.end_lap_time": ("layout", "end_lap"),
        "layout.t_joint_time": ("layout", "t_joint"),
        "layout.cut_time": ("layout", "cut"),
        "layout.new_length_time": ("layout", "new_length"),
        "layout.new_rip_time": ("layout", "new_rip"),
        "store.walls": ("rolls", "store_walls"),
        "store.carry": ("rolls", "carry_rolls"),
        "store.pace": ("rolls", "carry_speed"),
    }
)
# What could be written, where the key alone stands for several things.
EXAMPLES: Mapping[str, str] = MappingProxyType(
    {
        "job.name": "Quarry Lane Depot",
        "job.number": "26-041",
        "job.revision": "A",
        "roof.pipes.name": "V-1",
        "roof.drains.name": "D-1",
    }
)
NAMED = 2  # steps to a name of the job's own
_OPTIONS: Mapping[str, str] = MappingProxyType(
    {"us": "feet and inches, °F", "metric": "metres, °C", "accept": "accept it as it is"}
)


def label_of(path: Path) -> str:
    """What a key is called."""
    names = [step for step in path if isinstance(step, str)]
    key = names[-1]
    if names[0] in ("prices", "sheets") and len(names) == NAMED and key not in LABELS and key not in GROUPS:
        return f"A roll of {key}" if names[0] == "prices" else key  # a name of the job's own
    two = ".".join(names[-2:])
    three = f"{names[0]}.{key}"
    words = LABELS.get(two) or LABELS.get(three) or LABELS.get(key) or key.replace("_", " ")
    return words[:1].upper() + words[1:]


def option_words(word: str) -> str:
    """What a word of the job file is called where one is chosen."""
    return WORDS.get(word) or _OPTIONS.get(word) or word.replace("_", " ")
