"""An entry or a quantity in plain words, safe to print."""
