"""An entry or finding in one line, for every page."""
