"""From an open job to what a screen shows: pure readings, done off the UI thread."""
