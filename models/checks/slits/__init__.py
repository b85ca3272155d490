"""Checks of passes, lines and probes against their pattern."""
