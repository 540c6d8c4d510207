"""Who does what on which day: laying order walked through the hours (Q8, Q9)."""
