"""Production and finish dates; a date is a range that says what it rests on."""
