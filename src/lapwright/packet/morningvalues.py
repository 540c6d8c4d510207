"""What the morning sheet is printed from."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.assembly.values import Assembly
from lapwright.crew.values import CrewSetting, Morning
from lapwright.defaults.values import Rules
from lapwright.packet.values import Head


@dataclass(frozen=True, slots=True)
class MorningPaper:
    """The morning of a day with what it is judged by.  crew: None where it is not given."""

    head: Head
    morning: Morning
    assembly: Assembly
    rules: Rules
    crew: CrewSetting | None
