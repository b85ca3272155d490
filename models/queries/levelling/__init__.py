"""Elevations of shots; each hangs from its setup and benchmark, or says why not."""
