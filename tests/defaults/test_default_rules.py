"""The rules of a job: defaults with origin, overrides, and what is said of those that can't be read."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.defaults.rules import RULE_KEYS, RULE_KINDS, RulesUnread, RuleUnread, make_rules
from lapwright.defaults.table import table
from lapwright.units.write import Units

INCH, FOOT = 2_032, 24_384


def test_defaults_of_the_layout_in_ticks() -> None:
    """Each length of the layout as the job file's page gives it, counted in ticks on paper."""
    rules = make_rules({})
    assert {
        "ply_offset": rules.ply_offset_ticks,
        "ply_offset_at_rip": rules.ply_offset_at_rip_ticks,
        "end_lap_stagger": rules.end_lap_stagger_ticks,
        "end_lap_ply_offset": rules.end_lap_ply_offset_ticks,
        "shortest_piece": rules.shortest_piece_ticks,
        "longest_piece": rules.longest_piece_ticks,
        "narrowest_rip": rules.narrowest_rip_ticks,
        "cut_step": rules.cut_step_ticks,
        "base_over_edge": rules.base_over_edge_ticks,
        "cap_back_from_edge": rules.cap_back_from_edge_ticks,
        "edge_strip": rules.edge_strip_ticks,
        "cant": rules.cant_ticks,
        "base_up_wall": rules.base_up_wall_ticks,
        "cap_up_wall": rules.cap_up_wall_ticks,
        "corner_cut": rules.corner_cut_ticks,
    } == {
        "ply_offset": 18 * INCH,
        "ply_offset_at_rip": 12 * INCH,
        "end_lap_stagger": 3 * FOOT,
        "end_lap_ply_offset": 3 * FOOT,
        "shortest_piece": 5 * FOOT,
        "longest_piece": 33 * FOOT,
        "narrowest_rip": 12 * INCH,
        "cut_step": INCH // 2,
        "base_over_edge": 2 * INCH,
        "cap_back_from_edge": INCH // 2,
        "edge_strip": 9 * INCH,
        "cant": 4 * INCH,
        "base_up_wall": 2 * INCH,
        "cap_up_wall": 0,
        "corner_cut": 5 * INCH + INCH // 2,
    }


def test_defaults_that_are_no_length_of_the_layout() -> None:
    """The others in SI: 8", 5 °F, 20 and 30 mph, 24 hours and 3 days."""
    rules = make_rules({})
    assert (rules.spare_rolls, rules.limits_hold_for) == (1, "air_and_surface")
    assert (rules.flashing_height, rules.dew_point_margin_k) == pytest.approx((0.2032, 25 / 9), rel=1e-15)
    assert (rules.wind_sheets_m_s, rules.gust_stop_m_s) == pytest.approx((8.9408, 13.4112), rel=1e-15)
    assert (rules.dry_after_wet_s, rules.cover_within_s) == (86_400.0, 259_200.0)


def test_every_rule_has_an_origin() -> None:
    """Each rule carries its text, its default and where it comes from; nothing is overridden by itself."""
    origins = make_rules({}).origins
    assert list(origins) == [f"rules.{key}" for key in RULE_KEYS]
    assert [key for key, origin in origins.items() if origin.key != key or origin.text != origin.default] == []
    assert [key for key, origin in origins.items() if origin.is_overridden or not origin.source] == []


def test_the_table_and_the_kinds_name_the_same_rules() -> None:
    """No rule without a default, no default without a reader; in the same order."""
    assert tuple(table("rules")) == RULE_KEYS == tuple(RULE_KINDS)


def test_the_job_file_overrides_and_is_named() -> None:
    """An override is used, keeps its text, and shows the default beside it."""
    rules = make_rules({"end_lap_stagger": "900 mm", "limits_hold_for": "surface"})
    origin = rules.origins["rules.end_lap_stagger"]
    assert (rules.end_lap_stagger_ticks, rules.limits_hold_for) == (72_000, "surface")
    assert (origin.text, origin.default, origin.origin, origin.is_overridden) == ("900 mm", "3'", "job file", True)
    assert rules.origins["rules.cant"].is_overridden is False


@settings(deadline=None, max_examples=100)
@given(st.sampled_from([key for key, kind in RULE_KINDS.items() if kind == "ticks"]), st.integers(1, 5_000))
def test_any_length_given_is_the_length_used(key: str, sixteenths: int) -> None:
    """Every length of the layout that is given comes back in ticks, and no other rule but its follower moves."""
    given_texts = {"shortest_piece": '1/16"', "longest_piece": "400'", "ply_offset": "400'", "ply_offset_at_rip": '0"'}
    given_texts[key] = Units("us").tape(sixteenths * 127)
    rules = make_rules(given_texts)
    plain = make_rules({name: text for name, text in given_texts.items() if name != key})
    assert getattr(rules, f"{key}_ticks") == sixteenths * 127
    moved = [name for name in rules.origins if rules.origins[name] != plain.origins[name]]
    assert moved in ([f"rules.{key}"], [])


def test_a_smaller_ply_offset_takes_the_one_at_a_rip_with_it() -> None:
    """Less between side laps everywhere is not refused for want of a second rule."""
    rules = make_rules({"ply_offset": '10"'})
    assert rules.ply_offset_at_rip_ticks == 10 * INCH
    assert rules.origins["rules.ply_offset_at_rip"].is_overridden
    assert rules.origins["rules.ply_offset_at_rip"].text == '10"'


def test_all_that_is_wrong_is_told_at_once() -> None:
    """Unknown keys with the nearest known one, then every rule in the order of the page; the whole of what is said."""
    length = ("a length with its unit", "12' 6 1/2\", 3.81 m or 40 mm")
    with pytest.raises(RulesUnread) as found:
        make_rules(
            {
                "ply_ofset": "18",
                "limits_hold_for": "roof",
                "spare_rolls": "1.5",
                "ply_offset": "18",
                "cut_step": '0"',
                "cant": '-4"',
                "shortest_piece": "40'",
                "wind_sheets": "20",
                "cover_within": "0 d",
                "dew_point_margin": "-5 F",
            }
        )
    assert found.value.errors == (
        RuleUnread("ply_ofset", "18", "a rule that is known; the nearest is ply_offset", 'ply_offset: 18"'),
        RuleUnread("ply_offset", "18", *length),
        RuleUnread("cut_step", '0"', "a value above 0", '1/2"'),
        RuleUnread("cant", '-4"', "a value that is not negative", '4"'),
        RuleUnread("spare_rolls", "1.5", "a whole number", "6"),
        RuleUnread("limits_hold_for", "roof", "one of air_and_surface, air, surface", "air_and_surface"),
        RuleUnread("dew_point_margin", "-5 F", "a value that is not negative", "5 F"),
        RuleUnread("wind_sheets", "20", "a speed with its unit", "20 mph, 9 m/s or 3 in/s"),
        RuleUnread("cover_within", "0 d", "a value above 0", "3 d"),
        RuleUnread("shortest_piece", "40'", "no more than longest_piece, 33'", "33'"),
    )


@pytest.mark.parametrize(
    ("given_texts", "error"),
    [
        ({"longest_piece": "4'"}, RuleUnread("longest_piece", "4'", "no less than shortest_piece, 5'", "5'")),
        (
            {"ply_offset_at_rip": '20"'},
            RuleUnread("ply_offset_at_rip", '20"', 'no more than ply_offset, 18"', '18"'),
        ),
        ({"spare_rolls": "1001"}, RuleUnread("spare_rolls", "1001", "a count of at most 1000", "1")),
    ],
)
def test_rules_against_each_other(given_texts: dict[str, str], error: RuleUnread) -> None:
    """What no layout could meet is told at the rule that was given."""
    with pytest.raises(RulesUnread) as found:
        make_rules(given_texts)
    assert found.value.errors == (error,)
