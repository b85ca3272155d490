"""Tables of the as-built record; each adds up to the book."""
