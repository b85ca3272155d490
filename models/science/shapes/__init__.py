"""Rings in whole nanometres; one door to the geometry library."""
