"""The plan of the demo job and what such a job is handed; data alone."""
