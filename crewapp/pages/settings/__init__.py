"""Whose tablet, language, units, the true millimetre."""
