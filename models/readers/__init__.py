"""Readers of files from strangers; a file is bounded before it is read."""
