"""Translations: English text to its translation, a file for each language and part."""
