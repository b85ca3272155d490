"""Shell, base classes of pages, pads and the worker's thread; knows no feature."""
