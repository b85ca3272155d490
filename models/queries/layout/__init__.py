"""A line that carries work never moves; a stake leads back to its line."""
