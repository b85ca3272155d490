"""A book's file on a disk: WAL, FULL, lock, folder fsync; knows no entry."""
