"""Per hour and operation: open, warm, heat or shut, and why (Q5)."""
