"""Layers and hold points before anything is covered."""
