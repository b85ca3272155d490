"""Layers, protection, leave to cover."""
