"""An id means an entry of its job; no statement changes an entry; figures can be rebuilt."""
