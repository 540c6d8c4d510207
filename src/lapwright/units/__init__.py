"""Reads and prints tape lengths, metric, temperatures, pressures, slopes and bearings; alone knows other units."""
