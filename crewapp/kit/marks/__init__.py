"""Colour, shape and word together."""
