"""Queries of a job's state; none writes; what is missing is a sentence in the answer."""
