"""Asking the weather service: against a server on this machine that replays good and bad replies."""

import itertools
import socket
from collections.abc import Iterator
from pathlib import Path

import pytest

import forecast_sample as sample
from forecast_server import GRID, HOURLY, POINTS, Service, cut_short, problem, reply, send, service, silent
from lapwright.faults import Refused
from lapwright.intake import forecast_ask
from lapwright.intake.forecast_ask import Asking, Unanswered, ask_forecast
from lapwright.intake.forecast_keep import forecast_bytes, keep, kept_path

pauses: list[float] = []


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> Iterator[Service]:
    """A service, asked directly whatever the machine's proxies."""
    monkeypatch.setenv("no_proxy", "*")
    pauses.clear()
    with service() as made:
        yield made


def ask(made: Service, **how: object) -> dict[str, object]:
    """The replies for the made place; waits are noted, not waited."""
    asking = Asking(base=made.base, agent="lapwright/test", pause=pauses.append, **how)
    return ask_forecast(36.1, -79.95, asking, asked="2027-01-11T03:05:20+00:00")


def unanswered(made: Service, **how: object) -> str:
    """What is said when nothing comes."""
    with pytest.raises(Unanswered) as found:
        ask(made, **how)
    return str(found.value)


def test_three_replies_make_a_forecast(asked: Service) -> None:
    """The place first; links are followed on the host that was asked; we say who we are."""
    found = ask(asked)
    assert (found["points"], found["grid"], found["hourly"]) == (sample.points(), sample.grid(), sample.hourly())
    assert asked.asked == [POINTS, GRID, HOURLY]
    assert set(asked.agents) == {"lapwright/test"}
    assert pauses == []


def test_a_service_that_stumbles_is_asked_again(asked: Service) -> None:
    """Two errors, then a reply: waits of one and two seconds between."""
    asked.put(GRID, problem(500, "Unexpected Problem"), problem(503, "Service Unavailable"), reply(sample.grid()))
    assert ask(asked)["grid"] == sample.grid()
    assert pauses == [1.0, 2.0]


def test_the_service_s_own_wait_is_kept_within_reason(asked: Service) -> None:
    """Retry-After is honoured up to ten seconds."""
    busy = send(429, b"{}", Retry_After="7")
    asked.put(POINTS, busy, send(429, b"{}", Retry_After="9999"), reply(sample.points()))
    ask(asked)
    assert pauses == [7.0, 10.0]


def test_four_tries_are_enough(asked: Service) -> None:
    """A place that is never told ends in words of what was said."""
    asked.put(POINTS, problem(500, "Unexpected Problem"))
    assert unanswered(asked) == "500 Internal Server Error: Unexpected Problem: made"
    assert asked.asked == [POINTS] * 4
    assert pauses == [1.0, 2.0, 4.0]


def test_a_site_outside_the_service_is_the_user_s_to_mend(asked: Service) -> None:
    """404 for the place: no second try, and what to do instead."""
    asked.put(POINTS, problem(404, "Data Unavailable For Requested Point"))
    with pytest.raises(Refused) as refused:
        ask(asked)
    assert refused.value.text() == (
        "  site\n"
        "  read:   36.1, -79.95: 404 Not Found: Data Unavailable For Requested Point: made\n"
        "  needs:  a site that the US National Weather Service forecasts for: the United States, its territories "
        "and waters\n"
        "  write:  --forecast FILE.json, or the job's weather year without --forecast"
    )
    assert asked.asked == [POINTS]


@pytest.mark.parametrize("part", [GRID, HOURLY])
def test_one_of_the_two_is_enough(asked: Service, part: str) -> None:
    """The grid without the hours, or the hours without the grid."""
    asked.put(part, problem(500, "Unexpected Problem"))
    found = ask(asked)
    assert (found["grid"] is None, found["hourly"] is None) == (part == GRID, part == HOURLY)


def test_silence_is_waited_for_and_no_longer(asked: Service, monkeypatch: pytest.MonkeyPatch) -> None:
    """No word within the time-out."""
    known = forecast_ask.default_number
    monkeypatch.setattr(
        forecast_ask, "default_number", lambda name, row: 0.05 if row == "time_out" else known(name, row)
    )
    asked.put(POINTS, silent)
    assert unanswered(asked) == "no answer in time"


def test_a_reply_cut_short_is_asked_for_again(asked: Service) -> None:
    """Half a reply is none."""
    asked.put(GRID, cut_short(sample.grid()), reply(sample.grid()))
    assert ask(asked)["grid"] == sample.grid()
    asked.put(POINTS, cut_short(sample.points()))
    assert unanswered(asked) == "a reply that breaks off"


def test_a_web_page_is_no_reply(asked: Service) -> None:
    """An error page that calls itself a success."""
    asked.put(POINTS, send(200, b"<html><body>maintenance</body></html>", "text/html"))
    assert unanswered(asked) == "a web page"


def test_a_reply_without_hours_is_none(asked: Service) -> None:
    """A grid with no temperatures, and hours that are no list."""
    asked.put(GRID, reply({"properties": {"temperature": {"values": None}}}))
    asked.put(HOURLY, reply({"properties": {"periods": "none"}}))
    assert unanswered(asked).startswith("a grid reply without hours (properties); a hourly reply without hours")


def test_a_huge_reply_is_not_read(asked: Service) -> None:
    """More than 8 MB is no forecast."""
    asked.put(POINTS, send(200, b" " * 9_000_000))
    assert unanswered(asked) == "a reply of more than 8 MB"


def test_a_reply_that_never_ends_is_left(asked: Service) -> None:
    """However alive the line is: by the clock given, which goes on a minute with each look."""
    ticks = itertools.count(0, 60)
    assert unanswered(asked, clock=lambda: float(next(ticks))) == "a reply that does not come to its end"


def test_redirects_are_followed_on_the_same_host(asked: Service) -> None:
    """The service redirects positions that it wants written otherwise."""
    asked.put(POINTS, send(301, b"", Location="/points/36.1000,-79.9500"))
    asked.put("/points/36.1000,-79.9500", reply(sample.points()))
    assert ask(asked)["points"] == sample.points()


def test_redirects_to_another_host_are_not(asked: Service) -> None:
    """Nor endless ones."""
    asked.put(POINTS, send(302, b"", Location="http://localhost:1/points"))
    assert unanswered(asked) == "sent on to another host"
    asked.put(POINTS, send(302, b"", Location=POINTS))
    assert "redirect" in unanswered(asked)


def test_links_to_another_host_are_followed_by_their_path_only(asked: Service) -> None:
    """A reply can't send us elsewhere."""
    asked.put(POINTS, reply(sample.points("https://elsewhere.example")))
    ask(asked)
    assert asked.asked == [POINTS, GRID, HOURLY]


def test_a_service_that_is_not_there(asked: Service) -> None:
    """Nobody listens at the address."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        asked.base = f"http://127.0.0.1:{free.getsockname()[1]}"
    assert unanswered(asked) == "Connection refused"


def test_a_forecast_is_kept_beside_the_job_and_written_over(tmp_path: Path) -> None:
    """The name tells whose it is; a forecast saved before gives way, another file does not."""
    path = kept_path(tmp_path / "millrace.yaml")
    assert path == tmp_path / "millrace.forecast.json"
    keep(path, forecast_bytes({"schema": "lapwright.forecast/1", "asked": "first"}))
    keep(path, forecast_bytes({"schema": "lapwright.forecast/1", "asked": "second"}))
    assert path.read_text() == '{"schema":"lapwright.forecast/1","asked":"second"}\n'
    path.write_text('{"mine": 1}')
    with pytest.raises(Refused) as refused:
        keep(path, b"{}")
    assert refused.value.text() == (
        "millrace.forecast.json\n"
        "  read:   a file that is no saved forecast\n"
        "  needs:  a name that is free, or a saved forecast's\n"
        "  write:  --save with another name"
    )
    assert [one.name for one in tmp_path.iterdir()] == ["millrace.forecast.json"]


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    """Never a traceback."""
    with pytest.raises(Refused) as refused:
        keep(tmp_path / "none" / "a.json", b"{}")
    assert "needs:  a folder that can be written" in refused.value.text()
