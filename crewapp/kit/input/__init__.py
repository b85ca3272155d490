"""Input as frozen values; no window, no pydantic."""
