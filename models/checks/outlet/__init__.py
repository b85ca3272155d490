"""Checks of where the water leaves: whether it can, by whose leave, at what level."""
