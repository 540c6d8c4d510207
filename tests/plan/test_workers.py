"""Processes that answer calls: in order, each with a process of its own."""

import os

from lapwright.plan.workers import SecondHands, each_by_itself


def test_answers_come_in_the_order_asked() -> None:
    """More calls than processes at once: 0, 1, 4, 9 and 16 have the roots 0 to 4."""
    assert each_by_itself("math", "isqrt", [0, 1, 4, 9, 16], at_once=2) == [0, 1, 2, 3, 4]


def test_each_is_answered_by_a_process_of_its_own() -> None:
    """Three calls, three processes, none of them this one."""
    pids = each_by_itself("builtins", "eval", ["__import__('os').getpid()"] * 3)
    assert len({*pids, os.getpid()}) == 4


def test_ended_hands_are_this_process() -> None:
    """After the end, calls are answered here, as where no process can be started."""
    with SecondHands(loads=((), ())) as hands:
        hands.end()
        assert hands.call("os", "getpid").ask() == os.getpid()
