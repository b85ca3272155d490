"""Rows are only ever added; the id is the identity; a commit is durable or unknown."""
