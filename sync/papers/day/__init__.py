"""Prints facts; works nothing out."""
