"""One module a command: ``run(args)`` does it and returns the exit code."""
