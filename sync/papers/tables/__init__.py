"""Tables of typed cells; a cell holds what paper shows and what the workbook holds, once."""
