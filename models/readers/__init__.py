"""What strangers hand in is bounded before it is read."""
