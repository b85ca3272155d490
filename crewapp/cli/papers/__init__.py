"""Commands that write papers: a day's sheet, the as-built package."""
