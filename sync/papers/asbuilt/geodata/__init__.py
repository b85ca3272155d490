"""Geodata of the as-built; a plane tied to nothing never becomes longitude and latitude."""
