"""Named layers, real units, readable without colour."""
