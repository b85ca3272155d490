"""The plan audit: what a plan says against itself, told before it is written."""
