"""Plain values in, plain out; no clock, file, state or pydantic; every docstring has units."""
