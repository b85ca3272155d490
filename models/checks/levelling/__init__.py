"""Checks of setups, check shots and rod readings."""
