"""Checks of recorded work; none raises for what was recorded; a subject costs what it costs."""
