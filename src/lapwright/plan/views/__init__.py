"""What the workspace shows of a plan: plain values, ready to be written as JSON."""
