"""Keys of 22 mm; nothing is chosen beforehand."""
