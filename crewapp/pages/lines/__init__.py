"""Lines of text for an entry or a finding, shared by every page."""
