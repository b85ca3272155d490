"""As-built package of a job: lists its files, and why one can't be made."""
