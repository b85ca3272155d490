"""Checks of pipe, coils, caps and joints of slits."""
