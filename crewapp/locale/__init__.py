"""Translations: one file a language, English text to its translation."""
