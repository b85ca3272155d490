"""Passes, lines and probes against their pattern."""
