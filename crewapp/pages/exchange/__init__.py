"""Other tablets and the office; one transfer at a time."""
