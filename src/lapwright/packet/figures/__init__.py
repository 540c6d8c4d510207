"""The page of figures for the roof: one HTML file that works from a phone without a network."""
