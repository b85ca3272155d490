"""Commands of the office."""
