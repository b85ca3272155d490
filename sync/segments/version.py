"""The form of segments that is written, as FORMAT.md has it: its name and its number."""

from typing import Final

FORMAT: Final = "crewapp-segment"
VERSION: Final = 1
