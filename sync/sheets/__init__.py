"""Builders of what is handed over: each takes facts and gives bytes."""
