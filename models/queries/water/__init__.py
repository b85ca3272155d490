"""Drainage of a surface; an estimate is never given without that word."""
