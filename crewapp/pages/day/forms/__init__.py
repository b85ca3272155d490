"""Questions of the day, as values."""
