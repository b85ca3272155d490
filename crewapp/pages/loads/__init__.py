"""Loads in, hoppers out, balance."""
