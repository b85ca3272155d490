"""Version of the segment format that is written: its name and its number, as FORMAT.md has it."""

from typing import Final

FORMAT: Final = "crewapp-segment"
VERSION: Final = 1
