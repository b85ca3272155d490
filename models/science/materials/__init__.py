"""Gradings and volumes by published rules, with their edition."""
