"""A cell holds what paper shows and what the workbook holds, once."""
