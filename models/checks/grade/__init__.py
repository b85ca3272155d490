"""A collector as laid against its design."""
