"""Calculations on plain values; no clock, file, state or pydantic; docstrings give units."""
