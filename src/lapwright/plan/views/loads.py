"""What lies on the roof besides its sheets: wind zones, the water's parts, spots for material; drawn and named."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from lapwright.deck.values import StagingMap
from lapwright.drains.values import WaterMap
from lapwright.packet.drawing import Fill, Item, Stroke
from lapwright.packet.sheets.waterplan import DEAD, dead_words, part_items, standing_items
from lapwright.packet.sheets.zoneplan import PLACES, inner_points, zone_items
from lapwright.packet.values import Paper
from lapwright.plan.views.registry import Json
from lapwright.plan.views.strokes import drawn, numbers
from lapwright.units.write import Units
from lapwright.wind.values import ZoneMap

SYMBOL_M = 0.15  # half of a mark's width on the roof


def loads(paper: Paper, units: Units) -> list[Json]:
    """The layers that the job gives what they need for, each with what is drawn, its marks and its words."""
    found = paper.engineered
    layers = [
        layer("zones", "Wind zones", zone_drawn(found.zones), zone_marks(found.zones), zone_words(found.zones, units)),
        layer(
            "water",
            "Drainage",
            water_drawn(found.water),
            water_marks(found.water, units),
            water_words(found.water, units),
        ),
        staging_layer(found.staging, units),
    ]
    return [each for each in layers if each is not None]


def layer(key: str, name: str, items: Iterable[Item], marks: Sequence[Json], words: Sequence[str]) -> Json | None:
    """A layer; None where nothing is drawn on it."""
    found = drawn(items)
    return {"key": key, "name": name, "drawn": found, "marks": list(marks), "words": list(words)} if found else None


def zone_drawn(zones: Sequence[ZoneMap]) -> list[Item]:
    """Zones of every level, hatched."""
    return [item for one in zones for item in zone_items(one, hatched=True)]


def zone_marks(zones: Sequence[ZoneMap]) -> list[Json]:
    """The number of each zone in each of its parts."""
    return [
        {"at": numbers([inner_points(rings)[0]]), "words": zone}
        for one in zones
        for zone, polygons in one.shapes.items()
        for rings in polygons
    ]


def zone_words(zones: Sequence[ZoneMap], units: Units) -> list[str]:
    """Each zone's place, area, pressure and class."""
    found = []
    for one in zones:
        for zone, m2 in one.areas_m2.items():
            if m2 > 0:
                found.append(f"zone {zone}, {PLACES[zone]}: {units.area(m2)}{pressed(one.pressures, zone, units)}")
        found += one.notes
    return found


def pressed(pressures: Mapping[str, object], zone: str, units: Units) -> str:
    """A zone's pressure and class in words; empty where an input is missing."""
    found = pressures.get(zone)
    asd, grade = getattr(found, "asd_pa", None), getattr(found, "class_psf", None)
    if asd is None:
        return ", pressure unknown"
    return f", {units.pressure(asd)} (ASD)" + (f", class {grade}" if grade is not None else "")


def water_drawn(maps: Sequence[WaterMap]) -> list[Item]:
    """The parts of every way out, and where water stands."""
    return [item for one in maps for item in (*part_items(one), *standing_items(one, SYMBOL_M))]


def water_marks(maps: Sequence[WaterMap], units: Units) -> list[Json]:
    """The name of each part, its area and its flow."""
    found: list[Json] = []
    for one in maps:
        for share in one.shares:
            if share.rings:
                flow = one.flows.get(share.key)
                words = f"{share.name}: {units.area(share.plan_m2 + share.half_walls_m2)}"
                words += f", {units.flow(flow)}" if flow is not None else ""
                rings = max(share.rings, key=lambda rings: len(rings[0]))
                found.append({"at": numbers([inner_points(rings)[0]]), "words": words})
    return found


def water_words(maps: Sequence[WaterMap], units: Units) -> list[str]:
    """Where water stands, in words."""
    dead = [place for one in maps for place in one.dead]
    return [*([DEAD] if dead else []), *(dead_words(place, units) for place in dead)]


def staging_layer(staging: StagingMap | None, units: Units) -> Json | None:
    """Where pallets may be spread; None without the deck's live load."""
    if staging is None:
        return None
    items: list[Item] = []
    marks: list[Json] = []
    for spot in staging.spots:
        items += [Fill((spot.ring,), "STAGING", pattern="diagonal", ink="grey")]
        items += [Stroke(spot.ring, "STAGING", weight="medium", closed=True)]
        count = len(spot.ring)
        middle = (sum(x for x, _ in spot.ring) / count, sum(y for _, y in spot.ring) / count)
        marks.append({"at": numbers([middle]), "words": str(spot.number)})
    words = [
        f"each spot takes one pallet's rolls, {units.mass(staging.pallet_kg)}, spread out",
        "the structure's designer moves each spot over beams and walls, never mid-bay",
    ]
    if staging.without_room:
        words.append(f"{staging.without_room} more pallets find no room at once: they wait below")
    return layer("staging", "Material on the roof", items, marks, words)
