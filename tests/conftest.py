"""Profiles of hypothesis: the same examples every time in `make test`, new ones in number at night."""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("test", derandomize=True, deadline=None)
settings.register_profile("nightly", max_examples=3_000, deadline=None)
settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "test"))
