"""Writes docs/job-file.md and docs/job-file.schema.json from the models of the job file; a test holds them together."""

import json
from itertools import groupby
from pathlib import Path

from lapwright.job.keys import KeyRow, key_rows
from lapwright.job.roof_models import DRAIN_KEYS
from lapwright.job.schema import job_schema

DOCS = Path(__file__).parents[1] / "docs"
HEAD = Path(__file__).with_name("job_file_head.md")


def schema_text() -> str:
    """The schema as it stands in the docs."""
    return json.dumps(job_schema(), indent=2, ensure_ascii=False) + "\n"


def page_text() -> str:
    """The page: its head by hand, its tables from the models."""
    drains = "\n".join(
        f"| `{kind}` | {', '.join(f'`{name}`' for name in names)} |" for kind, names in DRAIN_KEYS.items()
    )
    parts = [HEAD.read_text(encoding="utf-8").replace("{drains}", drains)]
    for name, rows in groupby(key_rows(), key=top):
        parts.append(f"### {name}\n\n| key | value | default | meaning |\n| --- | --- | --- | --- |\n")
        parts[-1] += "".join(line(row) for row in rows)
    return "\n".join(parts)


def top(row: KeyRow) -> str:
    """The key at the file's left margin that a row belongs to."""
    return row.path.split(".")[0].removesuffix("[]")


def line(row: KeyRow) -> str:
    """One row of a table."""
    default = f"`{row.default}`" if row.default else ("*needed*" if row.is_needed else "")
    cells = [f"`{row.path}`", row.value, default, row.meaning]
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |\n"


if __name__ == "__main__":
    (DOCS / "job-file.md").write_text(page_text(), encoding="utf-8")
    (DOCS / "job-file.schema.json").write_text(schema_text(), encoding="utf-8")
    print("job-file.md, job-file.schema.json")
