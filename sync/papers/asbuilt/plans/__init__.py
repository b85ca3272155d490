"""A plan is drawn to the scale it states and loses no line."""
