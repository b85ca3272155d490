"""Segments: a run of entries of one stream in one file, as FORMAT.md says."""
