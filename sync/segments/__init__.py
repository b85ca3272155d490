"""Segments: signed files of entries, never changed or deleted; each byte bounded and verified."""
