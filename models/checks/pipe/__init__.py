"""Pipe, coils, caps and joints of slits."""
