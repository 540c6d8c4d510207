"""What stands behind the plan: what was mended in the input, the rules in force, and the checks with their steps."""

from __future__ import annotations

import re
from collections.abc import Mapping

import numpy as np

from lapwright.defaults.values import Origin
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, Row, table, without_empty
from lapwright.roof.values import Closure
from lapwright.units.factors import INCH
from lapwright.units.retold import retold
from lapwright.verdict import NOT_GIVEN, Check, Step

SIGNIFICANT = 6
SHORT = 0.75  # lengths below are told in inches [m]
THIN = 0.02  # lengths below are told in millimetres in a metric job [m]
POWERS = re.compile(r"(?<=m)[23]")
NAMED_DEGREES = re.compile(r"(-?[0-9.]+) degC")


def note_page(book: Book) -> Json:
    """What the weather and the other inputs were, and what was changed in them."""
    mended = [(m.file, m.place, m.found, m.done) for m in book.paper.mended]
    weather = book.paper.hours.weather if book.paper.hours else None
    told = weather is not None and any(m.file == weather.name for m in book.paper.mended)
    closures = [closure_words(book, closure) for closure in book.paper.closures if closure.changes or closure.walked]
    return {
        "weather": weather_words(book),
        "weather_notes": [] if weather is None or told else list(weather.notes),
        "mended": table(("File", "Where", "Found", "Done"), mended, ("auto", "1fr", "1.4fr", "1.4fr")),
        "closures": closures,
    }


def weather_words(book: Book) -> list[str]:
    """Which year of hours was used and how whole it is."""
    if book.paper.hours is None:
        return ["The job names no weather: there are no hours and no crew days."]
    weather = book.paper.hours.weather
    absent, bridged = int(np.count_nonzero(weather.absent)), int(np.count_nonzero(weather.bridged))
    return [
        f"{weather.name}: {weather.origin}.",
        f"{len(weather.start)} hours, {absent} without a reading (shut), {bridged} with a reading bridged over a gap.",
    ]


def closure_words(book: Book, closure: Closure) -> str:
    """How a walk closed, and what was changed to close it."""
    units = book.units
    if not closure.east and not closure.north:
        return f"{closure.area}: the walk of {units.tape(closure.walked)} closes; nothing was changed."
    off = f"E {units.tape(closure.east)}, N {units.tape(closure.north)} in {units.tape(closure.walked)}"
    legs = "; ".join(
        f"side {change.side} by E {units.tape(change.east)}, N {units.tape(change.north)}" for change in closure.changes
    )
    return f"{closure.area}: the walk misses its start by {off}. " + (
        f"Changed: {legs}." if legs else "Nothing changed."
    )


def rule_page(book: Book) -> Json:
    """Rules, rates and allowances in force; what the job file overrides is marked by a word."""
    origins = [*book.paper.rules.origins.values(), *book.paper.settings]
    rows = [rule_row(book, origin) for origin in origins]
    bold = [at for at, origin in enumerate(origins) if origin.is_overridden]
    head = ("Rule or rate", "In force", "Default", "Origin", "Source and note")
    return {"table": table(head, rows, ("44mm", "27mm", "27mm", "29mm", "1fr"), bold=bold), "overridden": len(bold)}


def rule_row(book: Book, origin: Origin) -> Row:
    """One rule: key, value in force as typed, default in the job's units, where it comes from."""
    source = origin.source.removeprefix("common practice, ")
    told = "; ".join(part for part in (source, origin.note, origin.gave_way) if part)
    name = origin.key.removeprefix("rules.")
    usual = retold(book.units, origin.default, difference=name.endswith("margin"))
    if origin.text == origin.default:
        in_force, default = usual, "same"
    else:
        in_force, default = origin.text, usual
    return (name, in_force, default, origin.origin, told)


def check_pages(book: Book) -> list[Json]:
    """Every check with its steps, in the order of the plan."""
    return [check_page(book, check) for check in book.paper.checks]


def check_page(book: Book, check: Check) -> Json:
    """One calculation sheet: what is asked and given, the steps with their numbers, verdict, source, who confirms."""
    units, unit = book.units, "" if check.unit == "1" else check.unit
    asked = "" if check.demand is None else units.number_and_unit(check.demand, unit)
    given = "" if check.capacity is None else units.number_and_unit(check.capacity, unit)
    if check.demand is not None and check.capacity is not None:
        asked, given = told_apart(book, check.demand, check.capacity, unit)
    rows = [step_row(book, step) for step in check.steps if not is_note(step)]
    head = ("What is reckoned", "Formula", "Numbers put in", "Result")
    return {
        "id": check.id,
        "title": check.title,
        "status": check.status,
        "asked": asked,
        "given": given,
        "verdict": verdict_words(book, check),
        "supply": check.supply_words,
        "source": check.source,
        "confirm": check.confirm,
        "notes": [step.text.removesuffix(".") for step in check.steps if is_note(step) and not is_supply(step)],
        "steps": without_empty(table(head, rows, ("1.4fr", "1fr", "1.75fr", "38mm"))),
    }


def verdict_words(book: Book, check: Check) -> str:
    """The verdict in a sentence with its numbers."""
    if check.status == "unknown":
        return "no verdict until what is missing is supplied"
    if check.demand is None or check.capacity is None:
        return check.status
    unit = "" if check.unit == "1" else check.unit
    asked, given = told_apart(book, check.demand, check.capacity, unit)
    return f"{check.status}: asked {asked}, given {given}"


def told_apart(book: Book, demand: float, capacity: float, unit: str) -> tuple[str, str]:
    """Asked and given, to more figures (times: to the minute) where they would read alike and are not."""
    asked, given = (book.units.number_and_unit(value, unit) for value in (demand, capacity))
    if asked != given or demand == capacity:
        return asked, given
    if unit == "s":
        return hours_words(demand), hours_words(capacity)
    return exact_words(book, demand, unit), exact_words(book, capacity, unit)


def hours_words(seconds: float) -> str:
    """A length of time in hours and minutes: `71 h 56 min`."""
    hours, minutes = divmod(round(seconds / 60), 60)
    return f"{hours} h {minutes} min"


def is_note(step: Step) -> bool:
    """Words alone: what was assumed or left out, not a line of the calculation."""
    return not step.formula and not step.values and step.result is None


def is_supply(step: Step) -> bool:
    """What the line `To supply` says already."""
    return step.text.startswith(NOT_GIVEN)


def step_row(book: Book, step: Step) -> Row:
    """One line of a calculation: numbers put in are in the job's units; the result is in both."""
    return (step.text, step.formula, put_in(book, step.values), result_words(book, step))


def put_in(book: Book, values: Mapping[str, object]) -> str:
    """Names and numbers put into a formula, each in the job's units with the SI value behind where that differs."""
    return "; ".join(f"{name_of(book, name)} = {value_words(book, name, value)}" for name, value in values.items())


def name_of(book: Book, name: str) -> str:
    """`z` of `z [m]`; a temperature in a name is told in the job's units."""
    return NAMED_DEGREES.sub(lambda found: book.units.temperature(float(found[1])), name.partition(" [")[0])


def value_words(book: Book, name: str, value: object) -> str:
    """A number in the job's units, in a US job with SI in brackets; anything else as it is."""
    unit = name.partition(" [")[2].removesuffix("]")
    if not unit or isinstance(value, bool) or not isinstance(value, (float, int, np.floating)):
        return number_words(value)
    plain = f"{number_words(float(value))} {unit_words(unit.removesuffix(' rain'))}"
    own = exact_words(book, float(value), unit)
    return own if own == plain or not book.units.is_us else f"{own} ({plain})"


def unit_words(unit: str) -> str:
    """An SI unit as it is printed: `m²` for `m2`, `°C` for `degC`."""
    return POWERS.sub(lambda found: {"2": "²", "3": "³"}[found[0]], unit).replace("degC", "°C")


def exact_words(book: Book, value: float, unit: str) -> str:
    """A number in the job's units to six figures, so that a pencil comes to the same result."""
    if unit == "degC":
        return book.units.temperature(value) if book.units.is_us else f"{number_words(value)} °C"
    if unit == "m" and not book.units.is_us and abs(value) < THIN:
        return f"{number_words(value * 1000)} mm"
    if unit == "m" and book.units.is_us:
        inches = value / float(INCH)
        return f"{number_words(inches)} in" if abs(value) < SHORT else f"{number_words(inches / 12)} ft"
    number, shown = book.units.converted(value, unit)
    return f"{number_words(number)} {shown}"


def number_words(value: object) -> str:
    """A number to six figures, anything else as it is."""
    if isinstance(value, bool) or value is None:
        return {True: "yes", False: "no", None: "not given"}[value]
    if isinstance(value, (float, np.floating)):
        return f"{float(value):.{SIGNIFICANT}g}"
    if isinstance(value, (list, tuple)):
        return "(" + ", ".join(number_words(one) for one in value) + ")"
    return str(value)


def result_words(book: Book, step: Step) -> str:
    """A result in SI, in a metric job in the units of the job file; beside it as people say it, where that differs."""
    if step.result is None:
        return ""
    if isinstance(step.result, str):
        return step.result
    unit = "" if step.unit == "1" else step.unit
    if not unit:
        return number_words(float(step.result))
    plain = f"{number_words(float(step.result))} {unit_words(unit)}"
    if not book.units.is_us:
        plain = exact_words(book, float(step.result), unit)
    own = book.units.number_and_unit(float(step.result), unit)
    is_same = book.units.converted(1.0, unit)[1] == unit_words(unit) or not book.units.is_us
    return plain if is_same and own.partition(" ")[2] == plain.partition(" ")[2] else f"{plain} = {own}"
