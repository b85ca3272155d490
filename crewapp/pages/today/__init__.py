"""What is done, what is left, the one next thing."""
