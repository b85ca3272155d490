"""Checks of ties and of clearing after the job."""
