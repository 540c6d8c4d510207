"""Surface energy balance and contact temperatures (Q5, Q6)."""
