"""What to order: each item traced to the pieces and lengths that need it (Q2)."""
