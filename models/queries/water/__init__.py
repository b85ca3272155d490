"""An estimate never stands without the word."""
