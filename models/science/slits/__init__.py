"""Holes that blades leave: ramps, sod, pipe; the parts of a hole add up to it."""
