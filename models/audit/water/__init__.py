"""Rules of the plan audit about where the water goes, from a piped slit to an outlet."""
