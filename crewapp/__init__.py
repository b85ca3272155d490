"""The tablet app and the command line: what the hand touches."""
