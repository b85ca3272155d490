"""A verdict never goes beyond what the readings' own error supports."""
