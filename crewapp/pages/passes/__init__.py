"""Pages of slit work: cut, probe, sand, pipe, finish."""
