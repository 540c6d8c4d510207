"""Writes docs/plan.schema.json from lapwright.packet.planschema; a test holds the two together."""

import json
from pathlib import Path

from lapwright.packet.planschema import plan_schema

TARGET = Path(__file__).parents[1] / "docs" / "plan.schema.json"


def schema_text() -> str:
    """The schema as it stands in the docs."""
    return json.dumps(plan_schema(), indent=2, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    TARGET.write_text(schema_text(), encoding="utf-8")
    print(TARGET.name)
