"""Rain, clearing, tests, ties."""
