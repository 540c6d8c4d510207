"""Slope, tributary areas, drain and scupper capacity, overflow head (Q4)."""
