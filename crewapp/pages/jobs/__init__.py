"""Pages of the books of this tablet, new jobs, the demo."""
