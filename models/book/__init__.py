"""Append-only store of entries; the id is the identity; a commit is durable or unknown."""
