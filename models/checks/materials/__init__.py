"""Checks of sand and deliveries against what is due and what came."""
