"""Colour by meaning, sizes in mm; palette has no window."""
