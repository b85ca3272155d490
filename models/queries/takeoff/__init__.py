"""A trial with one input changed writes nothing."""
