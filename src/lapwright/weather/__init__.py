"""A year of hours as arrays: moist air, frost, sun, gaps bridged and reported (Q5)."""
