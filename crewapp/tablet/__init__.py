"""The tablet itself: settings, keys, clock, files; no job."""
