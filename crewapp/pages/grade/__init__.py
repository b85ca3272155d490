"""Shots along a collector."""
