"""Translations, one file a language and part; a test prints what is missing."""
