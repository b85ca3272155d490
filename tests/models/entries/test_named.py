"""What entries name is read off every kind that has the field, and off no other."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from models.entries import named
from models.entries.body import Body
from models.entries.kinds import KINDS

_READ: dict[str, Callable[[Body | None], str | tuple[str, ...]]] = {
    "pass_id": named.pass_named,
    "surface_id": named.surface_named,
    "collector_id": named.collector_named,
    "material_id": named.material_named,
    "line_id": named.line_named,
    "line_ids": named.lines_named,
    "setup_id": named.setup_named,
    "instrument_id": named.instrument_named,
    "of_day": named.day_named,
    "why": named.reason_given,
}


@pytest.mark.parametrize("field", _READ)
@pytest.mark.parametrize("kind", KINDS)
def test_what_is_named_is_read_off_every_kind_that_has_the_field(kind: str, field: str) -> None:
    """A kind with the field gives what stands in it; one without, and no body, give nothing."""
    nothing: str | tuple[str, ...] = () if field == "line_ids" else ""
    told: str | tuple[str, ...] = ("G7-01",) if field == "line_ids" else "G7"
    has_field = field in KINDS[kind].model_fields
    body = KINDS[kind].model_construct()
    if has_field:
        body.__dict__[field] = told

    assert _READ[field](body) == (told if has_field else nothing)
    assert _READ[field](None) == nothing
