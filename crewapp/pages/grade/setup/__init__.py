"""The laser and its run from a benchmark."""
