"""Clocks, closed days, names and strikes."""
