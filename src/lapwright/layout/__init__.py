"""What goes where: courses, pieces, laps, rolls and details of every ply (Q1)."""
