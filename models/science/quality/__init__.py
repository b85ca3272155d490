"""A reading on the limit is in tolerance."""
