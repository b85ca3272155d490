"""Every kind of entry this version knows, by name."""

from __future__ import annotations

from models.entries.bodies import (
    after_rain,
    blades,
    collector_work,
    day,
    instruments,
    job,
    levels,
    loads,
    material_tests,
    outlets,
    planning,
    tablets,
)
from models.entries.bodies import (
    passes as slits,
)
from models.entries.bodies import (
    surfaces as surface,
)
from models.entries.body import Body

_MODULES = (
    job,
    surface,
    outlets,
    planning,
    slits,
    blades,
    loads,
    levels,
    instruments,
    collector_work,
    day,
    material_tests,
    after_rain,
    tablets,
)

KINDS: dict[str, type[Body]] = {
    model.kind: model
    for module in _MODULES
    for model in vars(module).values()
    if isinstance(model, type) and issubclass(model, Body) and model is not Body
}
"""Kind name to body model; the order is the order of definition."""

NEEDS: frozenset[str] = frozenset(word for model in KINDS.values() for word in model.needs.values())
"""Words of an envelope's ``needs`` that this version knows."""
