"""Checks of clocks, closed days, names and strikes."""
