"""The pages made from the models are current, and what they show is read."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from textwrap import indent
from types import ModuleType

import jsonschema
import pytest
from jobs import EXAMPLE, SMALL
from ruamel.yaml import YAML

from lapwright.job.keys import key_rows
from lapwright.job.reading import read_job
from lapwright.job.schema import job_schema

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs/job-file.md"


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    """The tool that makes the pages."""
    spec = importlib.util.spec_from_file_location("make_job_docs", ROOT / "tools/make_job_docs.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def blocks() -> list[str]:
    """The YAML blocks of the page."""
    return re.findall(r"```yaml\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL)


def loaded(text: str) -> object:
    """A YAML text as other readers see it; dates are texts in YAML 1.2's core."""
    yaml = YAML(typ="safe", pure=True)
    yaml.constructor.add_constructor("tag:yaml.org,2002:timestamp", lambda maker, node: maker.construct_scalar(node))
    return yaml.load(text)


def test_page_is_current(tool: ModuleType) -> None:
    """`make docs` would change nothing."""
    assert PAGE.read_text(encoding="utf-8") == tool.page_text()


def test_schema_file_is_current(tool: ModuleType) -> None:
    """Nor in the schema."""
    assert (ROOT / "docs/job-file.schema.json").read_text(encoding="utf-8") == tool.schema_text()


def test_every_key_is_explained() -> None:
    """Each has a kind of value and a meaning."""
    assert [row.path for row in key_rows() if not row.value or not row.meaning] == []


def test_every_key_of_the_example_is_in_the_table() -> None:
    """The example shows every block of the format; each of its keys is documented."""
    paths = {row.path for row in key_rows()}
    shown = {"site.rain_secondary", "roof[].edges[].metal.flange", "roof[].drains[].outlets", "rules.cover_within"}
    shown |= {"sheets.NAME.with_heat_at_or_above", "assembly.cover_board.attachment", "crew.fire_watch", "prices"}
    assert shown - paths == set()


def test_blocks_of_the_page_are_read() -> None:
    """A whole job first, its areas otherwise and what is weighed last; planes and outlines to stand in it between."""
    whole, *outlines, planes, areas, weighed = blocks()
    assert read_job(SMALL + weighed, file="j").layout.end_lap_time == 300
    read_job(SMALL.replace("    falls: S\n    slope: 1/4 in 12\n", indent(planes, "    ")), file="j")
    assert whole == SMALL
    read_job(areas + SMALL[SMALL.index("assembly:") :], file="j")
    for outline in outlines:
        read_job(SMALL.replace("outline: E 120', N 64', W 120', S 64'", outline.strip()), file="j")
    assert len(outlines) == 3


def test_schema_is_one() -> None:
    """It is a JSON Schema of the 2020-12 draft."""
    jsonschema.Draft202012Validator.check_schema(job_schema())


@pytest.mark.parametrize("text", [EXAMPLE, SMALL], ids=["example", "small"])
def test_schema_takes_what_is_read(text: str) -> None:
    """A file that is read fits the schema."""
    assert list(jsonschema.Draft202012Validator(job_schema()).iter_errors(loaded(text))) == []


@pytest.mark.parametrize(
    ("good", "bad"),
    [
        ("slope: 1/4", "slop: 1/4"),
        ("falls: S", "falls: [S]"),
        ("ply: base", "ply: bottom"),
        ('side_lap: 3"', "side_lap: 3"),
        ("  - area: Main\n", "  - area: Main\n    pipes: [{name: V-1}]\n"),
    ],
)
def test_schema_refuses_what_is_refused(good: str, bad: str) -> None:
    """Unknown keys, wrong shapes, other choices, bare numbers and missing keys are refused by both."""
    text = SMALL.replace(good, bad, 1)
    assert list(jsonschema.Draft202012Validator(job_schema()).iter_errors(loaded(text)))
