"""Will the deck carry what is stacked on it: a pallet of rolls against the live load (Q4).

A whole pallet on its own footprint weighs many times an ordinary roof's live load.  It is broken down: rolls stood on
end on sheets of plywood.  The question is whether that spreads it enough.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from lapwright.assembly.values import Deck, Sheet
from lapwright.deck.staging import needed_area_m2
from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.units.anything import si_scale
from lapwright.units.factors import GRAVITY
from lapwright.verdict import Check, Reading, Step, judged

SOURCE = "arithmetic on a usual pallet [common practice, no source]; live load from the structural drawings"
CONFIRM = "the engineer of record, with snow, people and tools on the same bay"
USES: Mapping[str, tuple[str, ...]] = {
    "deck.pallet": ("assembly.deck.live_load",),
    "deck.pallet-snow": ("assembly.deck.live_load", "assembly.deck.snow"),
}
TITLES: Mapping[str, str] = {
    "deck.pallet": "A pallet of rolls, broken down on plywood, stays within the live load",
    "deck.pallet-snow": "A pallet broken down on plywood and the snow and ice under it stay within the live load",
}
SNOWS = (("fresh snow", "snow_fresh"), ("packed snow", "snow_packed"), ("ice", "ice"))


def pallet_pressure_pa(mass_kg: float, area_m2: float) -> float:
    """Load of a mass [kg] spread over an area [m²], as pressure [Pa].

    Source: arithmetic
    Checked: tests/published/deck.csv pallet-*
    """
    return mass_kg * float(GRAVITY) / area_m2


def spread_area_m2() -> float:
    """Deck that a pallet covers once its rolls stand on sheets of plywood [m²].

    Source: common practice, no source
    """
    sheets = default_number("deck", "pallet_rolls") / default_number("deck", "rolls_on_plywood")
    return sheets * default_si("deck", "plywood_sheet")


def check_pallets(deck: Deck | None, sheets: Sequence[Sheet]) -> tuple[Check, ...]:
    """Two checks: a pallet of rolls, broken down and spread, stays within the live load [Pa]; and so with snow.

    Holds for: an even spread over plywood; where in the bay it stands is the engineer's word.
    Source: arithmetic on common practice
    Checked: tests/published/deck.csv pallet-*, snow-*
    """
    names = [sheet.name for sheet in sheets]
    return (
        _check("deck.pallet", deck, lambda live_load, _: (*_spread_steps(live_load, names), *_walk_steps())),
        _check("deck.pallet-snow", deck, _snowed_steps),
    )


def snow_load_pa(kind: str, depth: float) -> float:
    """Load of a depth [m] of snow_fresh, snow_packed or ice at the heavier end of its range [Pa].

    Source: defaults/deck.csv, origin on each row
    Checked: tests/published/deck.csv snow-*
    """
    row = table("deck")[kind]
    scale, _ = si_scale(row.unit)
    return float(row.value.split(" to ")[-1]) * scale * float(GRAVITY) * depth


def _check(id: str, deck: Deck | None, steps: Callable[[float, float], tuple[Step, ...]]) -> Check:
    """The spread pallet, and where the check reads it the snow and ice beside it, against the live load.

    steps: how that is reckoned, from the live load and the snow [Pa].
    """
    title, reading = TITLES[id], Reading()
    live_load = reading.take("assembly.deck.live_load", deck.live_load_pa if deck is not None else None)
    snow = 0.0
    if "assembly.deck.snow" in USES[id]:
        snow = reading.take("assembly.deck.snow", deck.snow_pa if deck is not None else None)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    demand = pallet_pressure_pa(default_si("deck", "pallet_weight"), spread_area_m2()) + snow
    return Check(
        id=id,
        title=title,
        status=judged(demand, live_load),
        demand=demand,
        capacity=live_load,
        unit="Pa",
        steps=steps(live_load, snow),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _snowed_steps(live_load: float, snow: float) -> tuple[Step, ...]:
    """The same pallet with the snow and ice that the job lets lie while material is on the roof."""
    mass, spread = default_si("deck", "pallet_weight"), spread_area_m2()
    pressed = Step(
        text="Load of the spread pallet with the snow and ice that may lie there",
        formula="m g / A + snow",
        values={"m [kg]": mass, "A [m2]": spread, "snow [Pa]": snow},
        result=pallet_pressure_pa(mass, spread) + snow,
        unit="Pa",
    )
    return (pressed, _needed_step(mass, live_load, snow), *_snow_steps())


def _needed_step(mass: float, live_load: float, snow: float) -> Step:
    needed = needed_area_m2(mass, live_load, snow)
    if needed is None:
        return Step(text="Snow and ice take the whole live load: clear the deck before anything is landed")
    return Step(
        text="Deck that one pallet needs for itself beside that snow",
        formula="m g / (live load - snow)",
        values={"m [kg]": mass, "live load [Pa]": live_load, "snow [Pa]": snow},
        result=needed,
        unit="m2",
    )


def _snow_steps() -> tuple[Step, ...]:
    inch, _ = si_scale("in")
    return tuple(
        Step(
            text=f"An inch of {words}, at the heavier end of its range [{table('deck')[row].origin}]",
            values={"density": table("deck")[row].text},
            result=snow_load_pa(row, inch),
            unit="Pa",
        )
        for words, row in SNOWS
    )


def _walk_steps() -> tuple[Step, ...]:
    """Rolls are walked out one by one from where they were landed."""
    rolls = default_number("deck", "pallet_rolls")
    person = default_si("deck", "crew_weight")
    return (
        Step(
            text="Rolls are walked out one at a time from the spread pallet to where they are laid, standing on end on "
            f"plywood, never piled; one roll with the person who walks it [{table('deck')['roll_weight'].origin}]",
            values={"roll [kg]": default_si("deck", "roll_weight"), "person [kg]": person, "rolls": rolls},
            result=default_si("deck", "roll_weight") + person,
            unit="kg",
        ),
    )


def _spread_steps(live_load: float, sheets: Sequence[str]) -> tuple[Step, ...]:
    """How the pallet presses whole, how far it must be spread, and how it presses spread."""
    mass, spread = default_si("deck", "pallet_weight"), spread_area_m2()
    footprint = default_si("deck", "pallet_length") * default_si("deck", "pallet_width")
    whole = pallet_pressure_pa(mass, footprint)
    origin = table("deck")["pallet_weight"].origin
    told = "over" if whole > live_load else "within"
    on_itself = Step(
        text=f"A whole pallet on its own footprint, {told} the live load: "
        + ("never set one down whole" if whole > live_load else "still over bearing lines only")
        + f" [{origin}]",
        formula="m g / A",
        values={"m [kg]": mass, "A [m2]": footprint, "sheets": ", ".join(sheets)},
        result=whole,
        unit="Pa",
    )
    needed = Step(
        text="Deck that one pallet needs for itself at the full live load, before snow",
        formula="m g / live load",
        values={"m [kg]": mass, "live load [Pa]": live_load},
        result=mass * float(GRAVITY) / live_load,
        unit="m2",
    )
    covered = Step(
        text="Deck that it covers when broken down: rolls stood on end, so many to a 4 x 8 ft sheet of plywood, over "
        "beams and bearing walls, never mid-bay",
        formula="rolls / rolls to a sheet x sheet",
        values={
            "rolls": default_number("deck", "pallet_rolls"),
            "rolls to a sheet": default_number("deck", "rolls_on_plywood"),
            "sheet [m2]": default_si("deck", "plywood_sheet"),
        },
        result=spread,
        unit="m2",
    )
    pressed = Step(
        text="Load of the pallet spread so",
        formula="m g / A",
        values={"m [kg]": mass, "A [m2]": spread},
        result=pallet_pressure_pa(mass, spread),
        unit="Pa",
    )
    return on_itself, needed, covered, pressed
