"""Job state folded from entries in order; each index and total is declared once, disposable."""
