"""The next day by a forecast that was kept beside the job: offered where it is there, and the same as on the sheet."""

from __future__ import annotations

from pathlib import Path

import pytest
from hours_by_hand import seen

import forecast_sample as sample
from lapwright.faults import Refused
from lapwright.packet.morningtext import morning_text
from lapwright.plan.morningsheet import Asked, make_morning

EXAMPLE = Path(__file__).parents[2] / "src/lapwright/plan/example/millrace.yaml"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """The example, alone in a folder."""
    path = tmp_path / "millrace.yaml"
    path.write_bytes(EXAMPLE.read_bytes())
    return path


def kept(job: Path, content: bytes) -> Path:
    """A forecast where the morning sheet keeps it."""
    path = job.with_name("millrace.forecast.json")
    path.write_bytes(content)
    return path


def test_it_is_offered_once_it_is_there(job: Path) -> None:
    """Without it nothing is; the moment that it is kept its name is told, though the job is the same."""
    assert (seen(job, "nextday")["kept"], seen(job, "nextday")["page"]["is_forecast"]) == ("", False)
    kept(job, sample.saved())
    found = seen(job, "nextday")
    assert (found["kept"], found["page"]["is_forecast"]) == ("millrace.forecast.json", False)


def test_the_page_is_the_morning_sheet_of_that_forecast(job: Path) -> None:
    """The made reply begins on the evening of 10 January 2027; the crew's first day in it is Monday the 11th."""
    path = kept(job, sample.saved())
    found = seen(job, "nextday", **{"from": "forecast"})
    assert (found["date"], found["held"]) == ("2027-01-11", ["2027-01-11", "2027-01-12"])
    assert found["label"] == ""
    sheet = make_morning(job, Asked(forecast=str(path))).lines()
    assert morning_text(found["page"]) == sheet
    assert "Before 08:03 surface within 5 °F of dew or frost" in " ".join(" ".join(sheet).split())


def test_the_other_day_of_it(job: Path) -> None:
    """Snow is likely on the 12th: everything stops."""
    kept(job, sample.saved())
    page = seen(job, "nextday", **{"from": "forecast", "date": "2027-01-12"})["page"]
    assert page["overall"]["verdict"] == "stop"


def test_a_day_that_it_does_not_hold(job: Path) -> None:
    """Told in words of a page, not of the command line's options."""
    kept(job, sample.saved())
    with pytest.raises(Refused) as refused:
        seen(job, "nextday", **{"from": "forecast", "date": "2027-03-01"})
    (fault,) = refused.value.faults
    assert (fault.file, fault.key, fault.read) == ("millrace.forecast.json", "", "2027-03-01")
    assert fault.needs == "a day that the forecast holds: 2027-01-11 to 2027-01-12"
    assert fault.write == "2027-01-11"


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b'{"schema": "other"}', b"\xff\xfe"])
def test_a_file_of_that_name_that_is_no_forecast(job: Path, content: bytes) -> None:
    """Refused by name; by the year there is still a page."""
    kept(job, content)
    with pytest.raises(Refused) as refused:
        seen(job, "nextday", **{"from": "forecast"})
    assert refused.value.faults[0].file == "millrace.forecast.json"
    assert seen(job, "nextday")["page"]["is_forecast"] is False


def test_none_kept_and_asked_for_all_the_same(job: Path) -> None:
    """A page from before the file was taken away: told what is needed."""
    with pytest.raises(Refused) as refused:
        seen(job, "nextday", **{"from": "forecast"})
    assert refused.value.faults[0].needs.startswith("a saved forecast")


def test_a_link_out_of_the_folder_is_not_offered(job: Path, tmp_path: Path) -> None:
    """A forecast elsewhere is somebody's own."""
    inside = tmp_path / "jobs"
    inside.mkdir()
    moved = job.rename(inside / "millrace.yaml")
    (tmp_path / "away.json").write_bytes(sample.saved())
    (inside / "millrace.forecast.json").symlink_to(tmp_path / "away.json")
    assert seen(moved, "nextday")["kept"] == ""
    with pytest.raises(Refused) as refused:
        seen(moved, "nextday", **{"from": "forecast"})
    assert refused.value.faults[0].needs == "a file in the job's folder"
