"""Widgets without a subject: none knows a job, an entry or a page."""
