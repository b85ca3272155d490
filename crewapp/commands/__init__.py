"""What a user can do or ask, as frozen values of plain types; knows nobody who carries it out."""
