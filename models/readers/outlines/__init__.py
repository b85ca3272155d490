"""Outlines, points and sieve sheets: no unit is guessed, every fault is reported at once."""
