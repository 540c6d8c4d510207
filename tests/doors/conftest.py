"""Each example job planned once a session."""

from __future__ import annotations

import pytest
from planned_jobs import JOBS, Planned, lapwright


@pytest.hookimpl(tryfirst=True)  # before the groups are told to the workers
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests of one example's plan run in one process, so that it is not planned in each."""
    for item in items:
        if isinstance(item, pytest.Function) and "planned" in item.fixturenames:
            item.add_marker(pytest.mark.xdist_group(item.callspec.params["planned"].stem))


@pytest.fixture(scope="session", params=JOBS, ids=lambda path: path.stem)
def planned(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Planned:
    """Each example job, planned once a session."""
    folder = tmp_path_factory.mktemp(request.param.stem) / "out"
    done = lapwright("plan", str(request.param), "--out", str(folder))
    assert done.returncode in (0, 1), done.stderr
    return Planned(request.param, folder, done)
