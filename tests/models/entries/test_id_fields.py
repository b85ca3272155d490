"""What entries name is read off every kind that has the field, and off no other."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from models.entries import id_fields
from models.entries.body import Body
from models.entries.kinds import KINDS

_READ: dict[str, Callable[[Body | None], str | tuple[str, ...]]] = {
    "pass_id": id_fields.pass_id_of,
    "surface_id": id_fields.surface_id_of,
    "collector_id": id_fields.collector_id_of,
    "material_id": id_fields.material_id_of,
    "line_id": id_fields.line_id_of,
    "line_ids": id_fields.line_ids_of,
    "setup_id": id_fields.setup_id_of,
    "instrument_id": id_fields.instrument_id_of,
    "of_day": id_fields.act_day_of,
    "why": id_fields.body_reason,
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
