"""Locates, utilities met, trench protection."""
