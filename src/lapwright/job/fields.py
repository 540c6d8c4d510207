"""How the text under a key becomes a value: readers of `units` with the bounds of what can be meant, choices, lists.

Each is put beside a type in the models (`Annotated[float, Reads(...)]`); it reads, it says what it needs, and it
describes itself for the JSON Schema and the key table.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from lapwright.units.unread import Unread

LONGEST_NAME = 80
LONGEST_FILE = 255
JsonSchema = dict[str, Any]


def key(description: str, default: Any = None, *, shown: str = "") -> Any:  # noqa: ANN401  # stands as a default
    """A key that may be left out.  shown: the default as it is typed, where it is not a text."""
    return Field(default=default, description=description, json_schema_extra={"default": shown} if shown else None)


def filled(description: str, make: Callable[[], Any]) -> Any:  # noqa: ANN401  # stands as a default
    """A key that may be left out and is then made."""
    return Field(default_factory=make, description=description)


def needed(description: str) -> Any:  # noqa: ANN401  # stands as a default
    """A key that the tool can't do without."""
    return Field(description=description)


def told(
    needs: str, write: str, *, is_dimension: bool = False, reads: Reads | None = None, is_example: bool = False
) -> PydanticCustomError:
    """The error that reading.py turns into a Fault.  is_example: `write` is the reader's own example."""
    context = {"needs": needs, "write": write, "dimension": is_dimension, "reads": reads, "example": is_example}
    return PydanticCustomError("told", "needs {needs}", context)


def told_already() -> PydanticCustomError:
    """The error for a list that holds something told before; reading.py drops it."""
    return PydanticCustomError("spoilt", "told already")


def close_to(word: str, choices: Iterable[str], cutoff: float = 0.6) -> str | None:
    """The choice nearest to a word, None where none is near."""
    found = difflib.get_close_matches(word[:LONGEST_NAME].lower(), list(choices), n=1, cutoff=cutoff)
    return found[0] if found else None


def near_name(name: str, names: Iterable[str]) -> str | None:
    """The name nearest to another whatever the capitals of either, None where none is near."""
    by_small = {each.casefold(): each for each in names}
    near = close_to(name.casefold(), by_small)
    return by_small[near] if near is not None else None


@dataclass(frozen=True, slots=True)
class Reads:
    """A text read by one of the readers of `units`.

    kind: what it is, in words, for the key table; write: an example.  low or above, and high: texts of the bounds of
    what can be meant; a value at `low` or `high` is inside, one at `above` is not.
    """

    kind: str
    read: Callable[[str], Any]
    write: str
    low: str = ""
    above: str = ""
    high: str = ""
    has_unit: bool = True

    def take(self, value: object) -> Any:  # noqa: ANN401  # whatever the reader gives
        """The value of a text."""
        try:
            made = self.read(value if isinstance(value, str) else "")
        except Unread as found:
            raise told(found.needs, found.write, is_dimension=self.has_unit, reads=self) from None
        is_low = (self.low and made < self.read(self.low)) or (self.above and made <= self.read(self.above))
        if is_low or (self.high and made > self.read(self.high)):
            raise told(self._bounds(), self.write, is_example=True)
        return made

    def _bounds(self) -> str:
        article = "an" if self.kind[0] in "aeio" else "a"
        between = f"from {self.low} to {self.high}" if self.low else f"over {self.above}, at most {self.high}"
        return f"{article} {self.kind} {between}"

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """A dimensioned value is a string, a bare number may be either."""
        described: JsonSchema = {"type": "string" if self.has_unit else ["string", "number"]}
        return {**described, "examples": [self.write]} if self.write else described


@dataclass(frozen=True, slots=True)
class OneOf:
    """One of some words.  also: other spellings that mean one of them."""

    choices: tuple[str, ...]
    also: tuple[tuple[str, str], ...] = ()
    kind: str = "one of"

    def take(self, value: object) -> str:
        """The word, in the spelling of `choices`."""
        word = value if isinstance(value, str) else ""
        known = dict(self.also)
        if word in known:
            return known[word]
        if word not in self.choices:
            near = close_to(word, self.choices)
            raise told(f"one of {', '.join(self.choices)}", near or self.choices[0])
        return word

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """The words."""
        return {"enum": [*self.choices, *(word for word, _ in self.also)]}


@dataclass(frozen=True, slots=True)
class YesNo:
    """true or false, yes or no."""

    kind: str = "true or false"

    def take(self, value: object) -> bool:
        """The answer."""
        known = {"true": True, "yes": True, "false": False, "no": False}
        if not isinstance(value, str) or value not in known:
            raise told("true or false", "false")
        return known[value]

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """A boolean, or the words that YAML 1.2 leaves as texts."""
        return {"enum": [True, False, "yes", "no"]}


def text(value: str) -> str:
    """A text kept as typed.

    Raises: Unread where it is empty or longer than a title block holds.
    """
    if not value.strip() or len(value) > LONGEST_NAME:
        raise Unread(f"a text of 1 to {LONGEST_NAME} characters", "")
    return value


TEXT = Reads("text, kept as typed", text, "", has_unit=False)


def file_beside(write: str) -> Reads:
    """Reads the name of a file in the job's folder or below it; anything that leaves the folder is refused."""

    def take(value: str) -> str:
        parts = value.split("/")
        is_odd = not value or len(value) > LONGEST_FILE or value != value.strip() or "\\" in value or ":" in value
        if is_odd or any(part in ("", ".", "..") for part in parts) or value.startswith("~"):
            raise Unread("a file beside the job file or in a folder below it", write)
        return value

    return Reads("file beside the job file", take, write, has_unit=False)
