"""The app and its start; the root holds what has to run before anything else is imported."""
