"""Lapwright plans self-adhered SBS-modified-bitumen roofs, cold weather above all."""

__version__ = "0.1.0"
