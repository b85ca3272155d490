"""Names as they stand on drawings: one line, short enough to leave room for others."""

from __future__ import annotations

from sync.papers.wording.safe_text import single_line

LONGEST = 48
"""Letters of a name on a drawing; the tables have it whole."""


def short(text: str, most: int = LONGEST) -> str:
    """A name on one line, cut with three dots where it is long.

    Examples
    --------
    >>> short("storm basin, east end", 14)
    'storm basin...'
    """
    line = single_line(text)
    return line if len(line) <= most else line[: most - 3].rstrip(" ,") + "..."
