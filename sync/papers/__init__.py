"""The same book gives the same bytes; text of a user is never formula, markup or path."""
