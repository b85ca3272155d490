"""Ready figures, worked out of a job's state; they can be thrown away at any time."""
