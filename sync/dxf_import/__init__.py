"""Outlines of one layer of a drawing, in a unit that is stated."""
