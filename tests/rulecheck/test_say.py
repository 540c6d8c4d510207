"""What a violation says to people, word for word."""

from __future__ import annotations

import pytest
from handplan import Drawing, broken_rules, judge, metres, write
from test_broken import DRAWN

from lapwright.rulecheck.names import RULES, rule_names, title_of
from lapwright.rulecheck.say import say
from lapwright.rulecheck.values import Violation
from lapwright.units.write import Units

SAID = {
    "base_over_edge": 'The base on Main ends 1" past the line of the metal edge, side 1, and has to reach 2"; '
    "lengthen the sheet and turn it down.",
    "overhang": 'Piece Main/cap/01/2: its right end is 2" past where the cap on Main ends; shorten it.',
    "side_lap": 'The cap on Main: course 2 lies 2 7/8" on course 1, needs 3"; lower course 2 or rip it wider.',
    "end_lap": 'Pieces Main/cap/01/1 and Main/cap/01/2: the end lap is 3", needs 6"; lengthen one.',
    "end_lap_stagger": "The cap on Main: end laps Main/cap/03/1 – Main/cap/03/2 and Main/cap/02/1 – Main/cap/02/2 "
    'of adjacent courses are 31" apart, need 36"; move one.',
    "ply_offset": 'The cap on Main: side lap 2 is 17 3/4" from side lap 3 of the base, needs 18"; '
    "begin the base with another width.",
    "shortest_piece": "Piece Main/cap/01/1 is 4' 9\" long, at least 5' 0\" is asked; move its end lap.",
    "narrowest_rip": 'The base on Main: course 4 shows 11 13/16", needs 12"; rip the course below '
    "so that this one gets wider.",
    "cut_step": "Piece Main/cap/01/1 is cut 30' 1/4\" long, which is no whole number of steps; cut it 30' 0\".",
}


@pytest.mark.parametrize("rule", SAID)
def test_the_whole_sentence(rule: str) -> None:
    """Lengths stand in the sentence as read off a tape."""
    drawing = DRAWN[rule]
    assert say(judge(write(drawing), drawing)[0], Units()) == SAID[rule]


def test_lengths_in_metric() -> None:
    """The same violation for a crew with a metric tape."""
    drawing = DRAWN["end_lap"]
    text = "Pieces Main/cap/01/1 and Main/cap/01/2: the end lap is 76.2 mm, needs 152.4 mm; lengthen one."
    assert say(judge(write(drawing), drawing)[0], Units("metric")) == text


def test_lengths_that_would_read_alike() -> None:
    """A lap short by 1/32" is not said to be 3" of 3"; one short by a hair is said to be nearly it."""
    made = Violation("side_lap", (), None, 0.0762 - 0.00079375, 0.0762, "{read} of {needs}")
    hair = Violation("side_lap", (), None, 0.0762 - 0.00015, 0.0762, "{read} of {needs}")
    assert say(made, Units()) == '2 31/32" of 3"'
    assert say(hair, Units()) == 'not quite 3" of 3"'


def test_where_is_a_place_on_the_plan() -> None:
    """A gap between 250" and 260" of a course that begins at 0 is told by a plan point within it."""
    where = judge(write(DRAWN["coverage"]), DRAWN["coverage"])[0].where
    assert where is not None
    assert metres(250) < where[0] < metres(260)
    assert metres(21.6875) < where[1] < metres(55.0625)


def test_text_stays_on_one_line() -> None:
    """Names with line breaks or control characters can't break the sentence up."""
    made = Violation("id", (), None, "a\nb\x1b", "once", "Piece {read} is there twice; {needs}.")
    assert say(made, Units()) == "Piece a·b· is there twice; once."


def test_every_rule_has_a_title() -> None:
    """Names are stable and in one order; a title is a sentence without a full stop."""
    assert rule_names() == tuple(RULES)
    assert [name for name in rule_names() if not title_of(name)[0].isupper() or title_of(name).endswith(".")] == []


def test_a_good_plan_says_nothing() -> None:
    """No rule is broken in the plan as drawn."""
    assert broken_rules(Drawing()) == []
