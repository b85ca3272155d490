"""Pages of rain, clearing, tests and ties after the work."""
