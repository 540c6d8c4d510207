"""What is typed in a job file, as plain tables, lists and texts, whatever of it can be read."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import BaseModel, ValidationError

from lapwright.job.composing import compose
from lapwright.job.tree import plain
from lapwright.units.unread import Unread

T = TypeVar("T")
Typed = dict[str, Any]
Model = TypeVar("Model", bound=BaseModel)


def typed_job(text: str, *, file: str) -> Typed:
    """The tables of a job file; empty where its form is broken before the first of them."""
    return table_of(plain(compose(text, file=file).root))


def table_of(value: object) -> Typed:
    """A table, or an empty one."""
    return value if isinstance(value, dict) else {}


def tables_of(value: object) -> list[Typed]:
    """A list's items as tables, each at its place; none where there is no list."""
    return [table_of(item) for item in value] if isinstance(value, list) else []


def text_of(value: object) -> str:
    """A text, or an empty one."""
    return value if isinstance(value, str) else ""


def read_or(value: object, reader: Callable[[str], T], other: T) -> T:
    """A text as read; another value where it can't be."""
    try:
        return reader(text_of(value))
    except Unread:
        return other


def made_of_rest(model: type[Model], typed: Typed) -> Model | None:
    """A table as its model has it, less what of it can't be read; None where something needed is among that."""
    try:
        return model.model_validate(typed)
    except ValidationError as found:
        wrong = {error["loc"][0] for error in found.errors(include_url=False, include_input=False) if error["loc"]}
    return made_or_none(model, {name: value for name, value in typed.items() if name not in wrong})


def made_or_none(model: type[Model], typed: Typed) -> Model | None:
    """A table as its model has it; None where something of it can't be read."""
    try:
        return model.model_validate(typed)
    except ValidationError:
        return None
