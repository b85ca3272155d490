"""Drawings are lists of primitives in mm, shared by screen and PDF; tests compare the lists."""
