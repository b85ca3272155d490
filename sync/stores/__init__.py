"""Stores of files: list, read, write, no trust; nothing in a store is changed or taken away."""
