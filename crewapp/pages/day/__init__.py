"""The day, its sheet, its signatures."""
