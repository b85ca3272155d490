"""Neutral layers; every data file is written from these."""
