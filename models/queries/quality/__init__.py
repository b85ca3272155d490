"""A place counts by all its readings: right the first time, and in the end."""
