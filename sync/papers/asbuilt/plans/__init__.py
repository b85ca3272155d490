"""Plans of the as-built; each is drawn to the scale it states and loses no line."""
