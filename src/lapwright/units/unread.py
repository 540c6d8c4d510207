"""What a reader says when a text is not what it reads, and how a text is made ready for reading.

*Tidy* text has single spaces, straight primes (' and "), plain hyphens and fractions typed out.
"""

from __future__ import annotations

import re

LONGEST = 64

_PLAIN = str.maketrans(
    {
        "′": "'", "’": "'", "‘": "'", "ʹ": "'", "´": "'", "`": "'",
        "″": '"', "”": '"', "“": '"', "ʺ": '"', "„": '"',
        "−": "-", "–": "-", "—": "-", "‐": "-", "‑": "-",
        "º": "°", "℃": "°C", "℉": "°F", "²": "2", "³": "3", "µ": "u", "×": "x", "⁄": "/", "∕": "/",
        "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    }
)  # fmt: skip


# a power that stands behind no unit: 4²m would be read as 42 m
_LONE_POWER = re.compile(r"(?<![A-Za-z])[²³]")


class Unread(ValueError):  # noqa: N818  # the reader's word; it becomes a fault at the place it was typed
    """A text that can't be read: `needs` says what is wanted, `write` can be pasted."""

    def __init__(self, needs: str, write: str) -> None:
        self.needs = needs
        self.write = write
        super().__init__(f"needs {needs}; write {write}")


# a comma between digits: a decimal comma, or a mark of thousands
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_THOUSANDS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2}(?:,[0-9]{3})+(?![0-9,])")


def tidy(text: str, needs: str, write: str, *, longest: int = LONGEST, is_list: bool = False) -> str:
    """The text with single spaces and plain marks; refused when it is longer than anyone types.

    is_list: commas part what it lists, else one between digits is told with what to write in its place.
    Raises: Unread with `needs` and `write`.
    """
    if len(text) > longest or _LONE_POWER.search(text):
        raise Unread(needs, write)
    if not is_list and _COMMA.search(text):
        raise Unread(f"{needs}, {_comma_words(text)}", pointed(text))
    return " ".join(text.translate(_PLAIN).split()).replace("''", '"')


def pointed(text: str) -> str:
    """The text with points for the commas between its digits; both readings where they may be marks of thousands."""
    plain = _COMMA.sub(".", text)
    return f"{_COMMA.sub('', text)} or {plain}" if _THOUSANDS.search(text) and plain.count(".") == 1 else plain


def _comma_words(text: str) -> str:
    return "without a comma" if " or " in pointed(text) else "its decimals behind a point"


def has_comma(text: str) -> bool:
    """A comma stands between two digits."""
    return _COMMA.search(text) is not None
