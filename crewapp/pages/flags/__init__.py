"""Pages of the flags that stand open, worst first."""
