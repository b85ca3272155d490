"""Handlers of commands; no window; the same for pages, command line, notes and demo."""
