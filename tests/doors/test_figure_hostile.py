"""Whatever is typed behind `figure`: an answer or words, never a traceback, never a number that is none."""

from __future__ import annotations

import json
import shlex

import pytest
from asked_figures import ASKED, asked
from hypothesis import given
from hypothesis import strategies as st

from lapwright.plan.figures.registry import NAMES, figure

ODD = (
    "", "-", "--", "0", "-1", "1e400", "nan", "inf", "None", "25", "25F",
    "-459F", "-460F", "5000C", "0mph", "300mph",
    "-3 mph", "0mm", "1e-9 m", "99999 km", "0 W/m2", "1e9 W/m2", "100%", "-5%", "0x0", "5x5", "99x99",
    "0 sf", "1e12 sf", "1/0", "12' 13\"", "½ in", "\x00", "\u202e", "4 in x 4 in x 4 in", "x", "ASCE 7-16",
    "gypsum", "single", "pallet",
    "drain", "scupper", "R-0", "R--1",
    "1000000 in/h", "0 in/h", "10 in", "1'", "120 V", "16", "0 kW", "1.6kW", "٣", "1_0",
)  # fmt: skip


def pairs(name: str) -> dict[str, str]:
    """The contract's options with their values."""
    words = [word for word in shlex.split(ASKED[name]) if word not in ("--wrapped",)]
    return dict(zip(words[::2], words[1::2], strict=True))


def check(status: int, out: str, err: str, *, is_json: bool) -> None:
    """An answer that is whole JSON, or words with what to write."""
    assert status in (0, 2)
    assert "Traceback" not in err
    assert bool(out) == (status == 0)
    assert ("needs:" in err) == (status == 2)
    if is_json and status == 0:
        json.loads(out, parse_constant=lambda word: pytest.fail(word))


@pytest.mark.parametrize("name", NAMES)
@given(data=st.data())
def test_an_odd_value_is_answered_or_told(name: str, data: st.DataObject) -> None:
    """Up to three options with values from a list of odd ones, or with any text at all."""
    options = pairs(name)
    known = [f"--{option.name}" for option in figure(name).options if option.kind != "flag"]
    texts = st.one_of(st.sampled_from(ODD), st.text(max_size=12))
    options |= data.draw(st.dictionaries(st.sampled_from(known), texts, max_size=3))
    is_json = data.draw(st.booleans())
    words = [word for pair in options.items() for word in pair]
    check(*asked(name, *words, *(["--json"] if is_json else [])), is_json=is_json)


@pytest.mark.parametrize("name", NAMES)
@given(data=st.data())
def test_every_value_within_bounds_is_answered(name: str, data: st.DataObject) -> None:
    """Numbers anywhere between an option's bounds: an answer, or a refusal of what can't stand beside the others."""
    options = pairs(name)
    for option in figure(name).options:
        ends = option.low or option.above
        if ends and option.kind in (
            "temperature",
            "speed",
            "length",
            "area",
            "number",
            "percent",
            "rain",
            "irradiance",
        ):
            low, high = (split(text) for text in (ends, option.high))
            share = data.draw(st.floats(0, 1))
            number = low[0] + (high[0] - low[0]) * share
            options[f"--{option.name}"] = f"{max(number, 1e-6 if option.above else low[0]):.6f}{high[1]}"
    words = [word for pair in options.items() for word in pair]
    check(*asked(name, *words, "--json"), is_json=True)


def split(text: str) -> tuple[float, str]:
    """A bound's number and its unit."""
    number = text.rstrip("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ/2%'\" ") or "0"
    unit = text[len(number) :]
    return float(number), unit


@given(words=st.lists(st.one_of(st.sampled_from([*NAMES, "--json", "--air", "--air=25F", "-5C", "--=", "--help"]),
                                st.text(max_size=8)), max_size=6))  # fmt: skip
def test_any_words_are_answered_or_told(words: list[str]) -> None:
    """Any words at all."""
    check(*asked(*words), is_json=False)
