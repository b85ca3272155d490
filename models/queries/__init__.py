"""Read off a job's state; writes nothing; what is missing is a sentence in the answer."""
