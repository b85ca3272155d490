"""Pages of what lies in the ground, and of the as-built package."""
