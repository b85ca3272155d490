"""The rod pad: reading, verdict and digits at once."""
