"""Attachment and edge metal: patterns, gauges, nail counts (Q3)."""
