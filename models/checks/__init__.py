"""Checks of recorded work: one file each, found by name; a fault is a Finding."""
