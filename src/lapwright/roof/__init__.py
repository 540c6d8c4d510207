"""The roof as measured: outlines, sides, openings, drains, planes and falls (Q1, Q4)."""
