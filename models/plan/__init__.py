"""Frozen parts of a plan and the whole-number field types; no entry, no state."""
