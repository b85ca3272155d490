"""Pages of the laser and the shots along a collector."""
