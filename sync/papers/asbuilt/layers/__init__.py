"""Layers of as-built features; every data file is written from these."""
