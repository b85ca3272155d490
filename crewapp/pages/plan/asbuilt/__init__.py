"""What lies in the ground, and the package."""
