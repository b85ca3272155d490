"""A collector as its shots show it; each fault is reported once."""
