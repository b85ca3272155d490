"""Draws every page into pictures, and lists what is on each."""
