"""What is true: units, entries, plan, book, state, calculations, checks."""
