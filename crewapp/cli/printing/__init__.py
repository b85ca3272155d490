"""Printing of commands on any console, as text or JSON, with each fault as a sentence."""
