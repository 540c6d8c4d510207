"""Reads and prints tape lengths, metric, temperatures, pressures, slopes, bearings; the only place that knows other units."""
