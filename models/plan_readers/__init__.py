"""Outlines and points from files, into the local plane; whatever is wrong is told at once."""
