"""Pages of the as-built record; laid out before printed; each page knows its paper."""
