"""Rates rest on days worked; what is unknown is said, not guessed."""
