"""The program's version: the one place where it stands, for the package as for ``--version``."""

from typing import Final

VERSION: Final = "0.1.0"
