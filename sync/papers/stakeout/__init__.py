"""The morning's sheet: one gathering, three files."""
