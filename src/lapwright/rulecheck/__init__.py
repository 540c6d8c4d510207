"""Independent rule checker for any plan, ours or a hand-edited one (Q1)."""
