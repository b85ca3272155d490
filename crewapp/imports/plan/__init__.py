"""Plan files, outlines and layouts as typed."""
