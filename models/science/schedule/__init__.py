"""A date is a range that says what it rests on."""
