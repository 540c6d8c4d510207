"""How a table of free names becomes values: rules, rates and prices, each name with one value."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from lapwright.defaults.rules import RULE_KINDS, RulesUnread, make_rules
from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.job.fields import told
from lapwright.job.rates import Wrong, check_rates
from lapwright.job.rulewords import RULE_WORDS
from lapwright.units import read
from lapwright.units.unread import Unread

JsonSchema = dict[str, Any]
MOST_NAMES = 200
ONE_LINE = "a value on one line"


def several(wrong: list[Wrong]) -> PydanticCustomError:
    """The error for some keys of a table at once: (key, needs, write, whether it is about the key itself)."""
    return PydanticCustomError("several", "needs {wrong}", {"wrong": wrong})


def _texts(value: object, example: str) -> tuple[dict[str, str], list[Wrong]]:
    """The texts of a table by name, and what is not one text; what is told already is in neither."""
    if not isinstance(value, dict):
        raise told("names and values, in braces or in a block below", example)
    if len(value) > MOST_NAMES:
        raise told(f"at most {MOST_NAMES} names", example)
    texts = {name: item for name, item in value.items() if isinstance(item, str)}
    wrong: list[Wrong] = [(name, ONE_LINE, "", False) for name, item in value.items() if isinstance(item, (dict, list))]
    return texts, wrong


def _schema(names: Mapping[str, tuple[str, str]]) -> JsonSchema:
    """The schema of a table whose names are known: name -> (meaning, default)."""
    properties = {
        name: {"type": ["string", "number"], "description": meaning, "default": default}
        for name, (meaning, default) in names.items()
    }
    return {"type": "object", "properties": properties, "additionalProperties": False}


@dataclass(frozen=True, slots=True)
class ReadsRules:
    """The rules that the job file gives, before the defaults."""

    kind: str = "rules by name"

    def take(self, value: object) -> Rules:
        """Every rule, given or default."""
        texts, wrong = _texts(value, '{ply_offset: 18"}')
        try:
            rules = make_rules(texts)
        except RulesUnread as found:
            wrong += [(error.key, error.needs, error.write, error.key not in RULE_KINDS) for error in found.errors]
            raise several(wrong) from None
        if wrong:
            raise several(wrong)
        return rules

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """One property a rule."""
        return _schema({name: (RULE_WORDS[name], row.text) for name, row in table("rules").items()})


@dataclass(frozen=True, slots=True)
class ReadsRates:
    """The rates that the job file gives: texts by name, each known to be readable."""

    kind: str = "rates by name"

    def take(self, value: object) -> Mapping[str, str]:
        """The texts by name, in file order."""
        texts, wrong = _texts(value, "{cap: 47 sf/h}")
        wrong += check_rates(texts, {name: row.text for name, row in table("rates").items()})
        if wrong:
            raise several(wrong)
        return MappingProxyType(texts)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """One property a rate."""
        return _schema({name: (row.note, row.text) for name, row in table("rates").items()})


@dataclass(frozen=True, slots=True)
class ReadsPrices:
    """Prices by item; which items there are depends on the sheets (crosscheck.py)."""

    kind: str = "prices by item"

    def take(self, value: object) -> Mapping[str, float]:
        """The prices by item, in file order."""
        texts, wrong = _texts(value, "{primer: 95.50}")
        prices: dict[str, float] = {}
        for name, text in texts.items():
            try:
                prices[name] = read.price(text)
            except Unread as found:
                wrong.append((name, found.needs, found.write, False))
        if wrong:
            raise several(wrong)
        return MappingProxyType(prices)

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Hands every value to `take`."""
        return core_schema.no_info_plain_validator_function(self.take)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchema:
        """Any name, one price."""
        return {"type": "object", "additionalProperties": {"type": ["string", "number"]}}
