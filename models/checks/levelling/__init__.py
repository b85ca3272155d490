"""Setups, check shots and rod readings."""
