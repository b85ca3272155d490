"""Pages of the plan: surfaces, lines, take-off, gates."""
