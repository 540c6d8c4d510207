"""What every table of the job file has in common."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Part(BaseModel):
    """A table of the job file: known keys only, nothing changes once it is read."""

    model_config = ConfigDict(extra="forbid", frozen=True)
