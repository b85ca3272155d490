"""Primitives and plans on the glass."""
