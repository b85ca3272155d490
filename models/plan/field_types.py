"""Whole-number field types shared by plans and entries."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

_LIMIT = 2**63 - 1
LONGEST_NM = 10**14
"""Longest and highest that anything of a job is: 100 km. What is laid out along it has an end."""
FARTHEST_NM = 2**52
"""Farthest that a place may lie from the origin of its plan: some 4,500 km, as in drawings."""

Nm = Annotated[int, Field(strict=True, ge=-LONGEST_NM, le=LONGEST_NM)]
"""Length, station or level in whole nanometres, either sign."""

Coordinate = Annotated[int, Field(strict=True, ge=-FARTHEST_NM, le=FARTHEST_NM)]
"""East or north of the local origin in whole nanometres."""

Span = Annotated[int, Field(strict=True, ge=0, le=LONGEST_NM)]
"""Length in whole nanometres that can't be negative."""

Pl = Annotated[int, Field(strict=True, ge=0, le=_LIMIT)]
"""Volume in whole picolitres."""

Ug = Annotated[int, Field(strict=True, ge=0, le=_LIMIT)]
"""Mass in whole micrograms."""

Minutes = Annotated[int, Field(strict=True, ge=0, le=7 * 24 * 60)]
"""Duration, or time of day, in whole minutes."""

Count = Annotated[int, Field(strict=True, ge=0, le=1_000_000)]
"""How many of something."""

TenthsC = Annotated[int, Field(strict=True, ge=-1_000, le=1_000)]
"""Temperature in whole tenths of a degree Celsius."""

Longitude = Annotated[int, Field(strict=True, ge=-180 * 10**9, le=180 * 10**9)]
"""Longitude in billionths of a degree, east positive."""

Latitude = Annotated[int, Field(strict=True, ge=-90 * 10**9, le=90 * 10**9)]
"""Latitude in billionths of a degree, north positive."""

GramsPerM3 = Annotated[int, Field(strict=True, gt=0, le=100_000_000)]
"""Density in whole grams per cubic metre."""

MicrolitresPerSecond = Annotated[int, Field(strict=True, ge=0, le=10**12)]
"""Flow in whole microlitres a second; a litre a second is a million."""

Label = Annotated[str, Field(min_length=1, max_length=80)]
"""A short name typed by a person."""

Words = Annotated[str, Field(max_length=4000)]
"""Free text typed by a person."""

Typed = Annotated[str, Field(max_length=40)]
"""A figure exactly as it was typed, so that it prints back the same."""

IsoDay = Annotated[str, Field(pattern=r"^\d{4}-\d{2}-\d{2}$")]
"""A calendar day written YYYY-MM-DD."""
