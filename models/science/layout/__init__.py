"""Parallel lines over a surface; the same request gives the same lines; no unasked repair."""
