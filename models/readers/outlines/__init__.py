"""Outlines, points and sieve sheets: no unit is guessed, every fault is told at once."""
