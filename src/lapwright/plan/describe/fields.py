"""Fields of a job file, from its models: what each is called, means, reads, defaults to, and what is typed there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from lapwright.defaults.rules import LIMITS_HOLD_FOR, RULE_KINDS
from lapwright.defaults.table import Row, table
from lapwright.job import keys
from lapwright.job.crosscheck import GROUPS
from lapwright.job.fields import OneOf, Reads, YesNo
from lapwright.job.keys import key_rows, known_keys
from lapwright.job.mappings import ReadsPrices, ReadsRates, ReadsRules
from lapwright.job.roof_models import DRAIN_KEYS, DrainTyped
from lapwright.job.rulewords import RULE_WORDS
from lapwright.job.tree import Path, written
from lapwright.plan.describe.typed import Typed, table_of, text_of
from lapwright.plan.describe.words import DEFAULTS_OF, EXAMPLES, label_of, option_words

Json = dict[str, Any]
# What the models say of a path is asked for every field, whenever the job changes.
example, shape_at = lru_cache(8192)(keys.example), lru_cache(8192)(keys.shape_at)
field_at, models_at = lru_cache(8192)(keys.field_at), lru_cache(8192)(keys.models_at)
YES_NO = (("true", "yes"), ("false", "no"))
MOST_ITEMS = 300


def block_json(path: Path, value: object, only: Sequence[str] = ()) -> Json:
    """What stands under a path as a block: its fields, the blocks below it, or the items of its list.

    Args:
        path: of a table, a list of tables, or a table of free names.
        value: what is typed there, as plain values.
        only: keys that are shown; all where it is empty.
    """
    head = {**_head(path), "given": value is not None}
    shape = shape_at(path)
    if shape == "list" and not isinstance(path[-1], int):
        return {**head, "shape": "list", "items": _items(path, value), "template": _template(path, value)}
    if shape == "named":
        names = list(table_of(value))[:MOST_ITEMS]
        below = [_named((*path, name), table_of(value).get(name)) for name in names]
        return {**head, "shape": "named", "items": below, "template": block_json((*path, _free_name(names)), None)}
    rows = _known(path, table_of(value))
    fields: list[Json] = []
    blocks: list[Json] = []
    for name in rows:
        if not only or name in only:
            (blocks if _is_block((*path, name), table_of(value).get(name)) else fields).append(
                part_json((*path, name), table_of(value).get(name))
            )
    return {**head, "shape": "table", "fields": fields, "blocks": blocks}


def _named(path: Path, value: object) -> Json:
    """What stands under a free name: a block, or a word alone."""
    if not isinstance(value, str):
        return block_json(path, value)
    field = _value_field(path, value, {"name": "Is"})
    return {**_head(path), "path": "", "given": True, "shape": "table", "fields": [field], "blocks": []}


def _head(path: Path) -> Json:
    row = _row(path)
    name = path[-1] if isinstance(path[-1], str) else f"{label_of(path[:-1])} {path[-1] + 1}"
    return {
        "path": written(path),
        "key": str(path[-1]),
        "name": label_of(path) if isinstance(path[-1], str) else name,
        "meaning": row.meaning if row is not None else "",
        "needed": row.is_needed if row is not None else False,
        "faults": [],
    }


def _row(path: Path) -> Any:  # noqa: ANN401  # a KeyRow, or None
    return _rows().get(_pattern(path))


def _rows() -> Mapping[str, Any]:
    if not _KNOWN:
        _KNOWN.update({row.path: row for row in key_rows()})
    return _KNOWN


_KNOWN: dict[str, Any] = {}


def _pattern(path: Path) -> str:
    """A path as the key table has it: `roof[].openings[].at`, `sheets.NAME.width`."""
    shown = ""
    for place, step in enumerate(path):
        if isinstance(step, int):
            shown += "[]"
        else:
            is_name = place > 0 and isinstance(path[place - 1], str) and shape_at(path[:place]) == "named"
            shown += f".{'NAME' if is_name else step}" if shown else step
    return shown


def _known(path: Path, value: Typed) -> list[str]:
    """The keys of a table in order; of a drain, those that its kind has, and those typed."""
    names = [name for model in models_at(path)[:1] for name in known_keys(model)]
    kind = text_of(value.get("kind"))
    if "drains" in path and "roof" in path and kind in DRAIN_KEYS:
        return [name for name in names if name in ("name", "kind", *DRAIN_KEYS[kind]) or name in value]
    return names


def _is_block(path: Path, value: object) -> bool:
    if _reader(path) is not None and not _by_name(path):
        return False
    return _by_name(path) or shape_at(path) != "text" or (isinstance(value, dict) and bool(models_at(path)))


def _by_name(path: Path) -> bool:
    return isinstance(_reader(path), ReadsRules | ReadsRates | ReadsPrices)


def _reader(path: Path) -> object:
    field = field_at(path)
    return next((item for item in field.metadata if hasattr(item, "kind")), None) if field is not None else None


def part_json(path: Path, value: object, also: Sequence[str] = ()) -> Json:
    """What stands under a key: a field, or a block.  also: names that have a price besides."""
    if not _is_block(path, value):
        return field_json(path, value)
    reader = _reader(path)
    if isinstance(reader, ReadsRules | ReadsRates):
        of = "rules" if isinstance(reader, ReadsRules) else "rates"
        return _named_fields(path, value, {name: _default_field(of, row) for name, row in table(of).items()})
    if isinstance(reader, ReadsPrices):
        names = dict.fromkeys([*also, *GROUPS, *table_of(value)])
        return _named_fields(path, value, {name: {"example": "$96", "kind": "price"} for name in names})
    return block_json(path, value)


def _default_field(of: str, row: Row) -> Json:
    words = RULE_WORDS[row.name] if of == "rules" else row.note
    kind = "one of" if of == "rules" and RULE_KINDS[row.name] == "choice" else "text"
    made: Json = {"meaning": words, "default": row.text, "origin": origin_words(row), "example": row.text}
    if kind == "one of":
        made |= {"kind": kind, "choices": [[each, option_words(each)] for each in LIMITS_HOLD_FOR]}
    return made


def _named_fields(path: Path, value: object, rows: Mapping[str, Json]) -> Json:
    """A table of free names with a value each."""
    given = table_of(value)
    fields = [_value_field((*path, name), given.get(name), more) for name, more in rows.items()]
    fields += [_value_field((*path, name), given[name], {}) for name in given if name not in rows]
    return {**_head(path), "given": value is not None, "shape": "table", "fields": fields, "blocks": []}


def _value_field(path: Path, value: object, more: Json) -> Json:
    head: Json = {"path": written(path), "key": str(path[-1]), "name": label_of(path), "needed": False, "faults": []}
    plain: Json = {"meaning": "", "kind": "text", "example": "", "choices": [], "default": "", "origin": ""}
    return {**head, **plain, "value": value if isinstance(value, str) else "", "is_text": _is_text(value), **more}


def field_json(path: Path, value: object) -> Json:
    """A field: label, meaning, kind of value, example, choices, default with its origin, and what is typed."""
    row, reader = _row(path), _reader(path)
    kind, choices = "text", list[list[str]]()
    if isinstance(reader, OneOf):
        kind, choices = "one of", [[each, option_words(each)] for each in reader.choices]
    elif isinstance(reader, YesNo):
        kind, choices = "one of", [list(each) for each in YES_NO]
        value = {"yes": "true", "no": "false"}.get(value, value) if isinstance(value, str) else value
    elif isinstance(reader, Reads):
        kind = reader.kind
    elif shape_at(path) == "text" and row is not None:
        kind = row.value.split(",")[0]
    default = row.default if row is not None else ""
    named = DEFAULTS_OF.get(_pattern(path))
    found = table(named[0])[named[1]] if named is not None else None
    more = {
        "kind": kind,
        "choices": choices,
        "example": EXAMPLES.get(".".join(str(step) for step in path if isinstance(step, str)), example(path)),
        "default": default or (found.text if found is not None else ""),
        "origin": origin_words(found) if found is not None else "",
        "meaning": row.meaning if row is not None else "",
        "needed": bool(row is not None and row.is_needed),
    }
    if isinstance(reader, OneOf) and isinstance(value, str):
        more["value"] = dict(reader.also).get(value, value)
    return _value_field(path, value, more)


def origin_words(row: Row) -> str:
    """Where a default comes from, in a few words."""
    return row.origin if row.source.startswith(row.origin) or not row.source else f"{row.origin}: {row.source}"


def _is_text(value: object) -> bool:
    return value is None or isinstance(value, str)


def _items(path: Path, value: object) -> list[Json]:
    rows = value[:MOST_ITEMS] if isinstance(value, list) else []
    return [block_json((*path, place), item) for place, item in enumerate(rows)]


# What an entry of a list is begun with: how its name starts, and what it is.
BEGUN: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "openings": ("C", {"kind": "curb"}),
    "pipes": ("V", {}),
    "drains": ("D", {"kind": "drain"}),
    "planes": ("Plane", {}),
}


def _template(path: Path, value: object) -> Json:
    """The fields of one more item, begun with a name that is free; those of some kinds alone say of which."""
    rows = value if isinstance(value, list) else []
    head, begun = BEGUN.get(str(path[-1]), ("", {}))
    given: dict[str, str] = dict(begun)
    if head:
        taken = {text_of(table_of(row).get("name") or table_of(row).get("plane")) for row in rows}
        name = next(f"{head}-{number}" for number in range(1, len(rows) + 2) if f"{head}-{number}" not in taken)
        given["plane" if head == "Plane" else "name"] = name
    if path[-1] != "drains" or path[0] != "roof":
        return block_json((*path, len(rows)), given)
    whole = block_json((*path, len(rows)), dict.fromkeys(known_keys(DrainTyped)) | given)
    for field in whole["fields"]:
        kinds = [kind for kind, keys in DRAIN_KEYS.items() if field["key"] in keys]
        field["of"] = kinds if field["key"] not in ("name", "kind") else []
    return whole


def _free_name(names: Sequence[str]) -> str:
    return next(f"sheet-{number}" for number in range(1, len(names) + 2) if f"sheet-{number}" not in names)
