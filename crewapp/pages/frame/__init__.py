"""Shell, page, pads and the worker's door; knows no feature."""
