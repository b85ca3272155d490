"""A frozen body names its kind, version, fields, units; old ones are read, never rewritten."""
