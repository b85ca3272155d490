"""What a user can do; no window; the same for pages, command line, notes and demo."""
