"""One function for each thing a user can do; each returns what it changed."""
