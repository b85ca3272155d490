"""A check never raises for what was recorded; one subject costs what that subject costs."""
