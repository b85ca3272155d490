"""Commands of planning."""
