"""Grade of a pipe as shot; a verdict never exceeds what the readings' error supports."""
