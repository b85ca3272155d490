"""The only way into the geometry library, so that its absence gives a sentence.

Every calculation that needs it imports ``shapely`` and ``numpy`` from here. A tablet that
only logs goes without both.
"""

from __future__ import annotations

from models.errors import PlanningAbsentError

try:
    import numpy as numpy
    import shapely as shapely
except ImportError as error:
    raise PlanningAbsentError(missing=error.name or "shapely") from error
