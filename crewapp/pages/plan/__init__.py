"""Surfaces, lines, take-off, gates."""
