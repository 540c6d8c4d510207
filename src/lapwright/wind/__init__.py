"""Pressures by edition, zones on the outline, required uplift class (Q3)."""
