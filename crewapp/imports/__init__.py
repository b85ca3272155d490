"""Files handed in: everything wrong at once, all or nothing."""
