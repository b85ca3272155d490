"""Lengths cut, counted once, and readings that count; every figure is read from here."""
