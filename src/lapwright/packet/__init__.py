"""One drawing, many papers; everything that lapwright writes."""
