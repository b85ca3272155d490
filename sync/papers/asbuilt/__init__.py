"""The package: lists its files and why one can't be made."""
