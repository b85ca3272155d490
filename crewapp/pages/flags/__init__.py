"""What stands open, worst first."""
