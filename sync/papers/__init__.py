"""Papers and files; one book gives the same bytes; user text is never formula, markup or path."""
