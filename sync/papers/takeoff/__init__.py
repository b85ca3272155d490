"""The take-off: one gathering, two files."""
