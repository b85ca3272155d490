"""Checks of layers and hold points before anything is covered."""
