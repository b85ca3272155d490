"""Cut, probe, sand, pipe, finish."""
