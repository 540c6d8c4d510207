"""Every default, rate, limit and coefficient, with unit and origin, as rows of CSV files."""
