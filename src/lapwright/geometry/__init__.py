"""Planes, bands, offsets, clipping, areas.  No roof words in it."""
