"""Pages of the day, its sheet and its signatures."""
