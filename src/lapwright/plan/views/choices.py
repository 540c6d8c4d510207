"""The trade-off of rolls against end laps: every aim side by side, so that a person can choose."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from lapwright.packet.pages.choice import choice_rows
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """A row for each aim, under one for what no layout can do without.

    Raises: Refused with every fault
    """
    job, _ = stages.read(ask)
    paper = stages.laid(ask)
    own = paper.weighed
    if own is None:
        return {"head": [], "least": [], "rows": [], "aim": job.layout.aim}
    choices = stages.weighed(ask, tell)
    head, rows = choice_rows(paper, replace(own, choices=choices))
    return {
        "head": list(head[1:]),
        "least": list(rows[0][1:]),
        "rows": [
            {
                "aim": choice.aim,
                "words": choice.aim.replace("_", " "),
                "is_laid": choice.is_laid,
                "cells": list(row[1:]),
            }
            for choice, row in zip(choices, rows[1:], strict=True)
        ],
        "aim": job.layout.aim,
    }
