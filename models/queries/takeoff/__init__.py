"""Take-off of a job, and trials of it; a trial with one input changed writes nothing."""
