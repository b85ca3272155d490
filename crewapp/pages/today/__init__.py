"""Page of the morning: what is done, what is left, the one next thing."""
