"""Entries folded in order; every index and total is declared once and can be thrown away."""
