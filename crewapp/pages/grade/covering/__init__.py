"""Pages of layers, protection and leave to cover."""
