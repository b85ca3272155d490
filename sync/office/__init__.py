"""Database of all jobs; an id is of its job; no entry is changed; figures can be rebuilt."""
