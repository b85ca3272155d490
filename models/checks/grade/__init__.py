"""Checks of a collector as laid against its design."""
