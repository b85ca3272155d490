"""Stake-out sheet of the morning: facts gathered once, written as three files."""
