"""Parts of a plan: what a line, a slit pattern and a collector are meant to be."""
