"""Checks of locates, utilities met and trench protection."""
