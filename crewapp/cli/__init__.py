"""The command line: one module a command; every error a sentence and an exit code."""
