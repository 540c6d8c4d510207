"""Volts and heat at the tool by cord, circuits, generator and fuel (Q7)."""
