"""The rules of the house as tests: arrows, sizes, docstrings, names, errors, tools, the map."""
