"""Abilities of the machine, each behind a port; a missing one is a sentence."""
