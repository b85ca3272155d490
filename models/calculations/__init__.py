"""Numbers in, numbers out: no clock, no file, no database, no screen."""
