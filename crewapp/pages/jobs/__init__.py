"""Books of this tablet, new jobs, the demo."""
