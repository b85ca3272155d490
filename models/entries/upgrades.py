"""Bodies of older versions, brought to the newest form on reading.

A stored body is never rewritten. A step is a pure function from the body of
one version to the body of the next, registered under the kind and the version
it starts from.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: dict[tuple[str, int], Step] = {}


def upgrade(
    kind: str, version: int, body: dict[str, Any], newest: int, steps: dict[tuple[str, int], Step]
) -> dict[str, Any]:
    """Take ``body`` from ``version`` to ``newest``, one step at a time.

    Raises
    ------
    KeyError
        If a step is missing; a test holds that none is.
    """
    while version < newest:
        body = steps[(kind, version)](body)
        version += 1
    return body
