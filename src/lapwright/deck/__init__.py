"""Pallets and live load (Q4)."""
