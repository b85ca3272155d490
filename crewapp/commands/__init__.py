"""Commands and queries of a user as frozen values of plain types; handlers stand elsewhere."""
