"""The words of findings: every fact a check may state, by one name each."""

from __future__ import annotations

FACTS: tuple[str, ...] = ("along_nm",)
"""Names of facts, in order of the alphabet; a name with a unit ends in it."""
