"""Exchange with a store; any order of any subset, repeated and cut anywhere, ends the same."""
