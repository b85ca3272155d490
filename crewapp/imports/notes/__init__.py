"""Typed-up field notes: a row an entry."""
