"""Quality by place: right the first time and in the end, by all readings of a place."""
