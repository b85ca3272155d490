"""Plane geometry: rings in whole nanometres; a single way into the geometry library."""
