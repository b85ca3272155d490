"""Ties and clearing after the job."""
