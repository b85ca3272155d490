"""Laid out before printed; each page knows its paper."""
