"""Tables of the record; each adds up to the book."""
