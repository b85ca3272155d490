"""A plane tied to nothing never becomes longitude and latitude."""
