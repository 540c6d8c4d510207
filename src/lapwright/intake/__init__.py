"""Readers for DXF and GeoJSON plans and for weather files."""
