"""Take-off on paper: facts gathered once, written as two files."""
