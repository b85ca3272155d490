"""Words on the glass, made to fit."""
