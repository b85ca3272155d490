"""Rows that fit whole; the rest by a page key."""
