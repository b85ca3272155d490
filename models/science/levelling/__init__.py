"""Levelling by two ways that must agree; a misclosure is shared only on request."""
