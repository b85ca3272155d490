"""The fields of every kind: named for their unit, described, whole, bounded, frozen."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Annotated, Any, get_args

import pytest
from pydantic import BaseModel, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from models.entries.body import Body
from models.entries.envelope import EntryRefusedError, build_body
from models.entries.kinds import KINDS
from models.plan.record import Record
from tests.models.checks.any_job import FIELDS

UNITS = {
    "_nm": "nm",
    "_pl": "pl",
    "_ug": "ug",
    "_min": "minutes",
    "_tenths": "tenths",
    "_tenths_c": "tenths of a degree C",
    "_g_per_m3": "g per cubic metre",
    "_permille": "thousandths",
    "_ndeg": "billionths of a degree",
    "_udeg": "udeg",
    "_um": "um",
    "_um_per_h": "um per hour",
    "_ul_per_s": "uL/s",
    "_mg": "mg",
    "_mm2": "mm2",
    "_ms": "UTC ms",
    "_s": "seconds",
    "_days": "days",
    "_cents": "hundredths",
    "_millionths": "millionths",
    "_asec10": "tenths of an arc second",
}
"""How the name of a figure ends, and how its description says the same."""

COUNTS = {"legs", "leg", "open_flags", "number", "drive_number", "block", "shift", "crossings"}
"""Whole numbers that count things."""


def inner_models(annotation: Any) -> Iterator[type[BaseModel]]:
    """Yield the models inside an annotation."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from inner_models(part)


def all_inner(model: type[BaseModel]) -> Iterator[type[BaseModel]]:
    """Yield the models inside a model, at every depth."""
    for field in model.model_fields.values():
        for inner in inner_models(field.annotation):
            yield inner
            yield from all_inner(inner)


def fields_of(model: type[BaseModel]) -> Iterator[tuple[type[BaseModel], str, FieldInfo]]:
    """Yield every field of a model and of the models inside it."""
    for name, field in model.model_fields.items():
        yield model, name, field
        for inner in inner_models(field.annotation):
            yield from fields_of(inner)


ALL = {
    f"{model.__name__}.{name}": field
    for kind in KINDS.values()
    for model, name, field in fields_of(kind)
}


def is_figure(field: FieldInfo) -> bool:
    """Whether a field holds a whole number, or none."""
    kinds = {part for part in (field.annotation, *get_args(field.annotation)) if part is not None}
    texts = " ".join(map(str, kinds))
    whole = re.search(r"\bint\b", texts) is not None
    return whole and "tuple" not in texts and "bool" not in texts


FIGURES = {name: field for name, field in ALL.items() if is_figure(field)}


def adapter(field: FieldInfo) -> TypeAdapter[Any]:
    """Return a reader for one field alone."""
    form: Any = Annotated[field.annotation, field]
    return TypeAdapter(form)


def test_there_are_figures_to_look_at() -> None:
    """The finder of figures finds the depth of a probe and its like."""
    assert {"Probe.depth_nm", "SandPlaced.volume_pl", "Machine.legs", "Hours.run_min"} <= set(
        FIGURES
    )
    assert len(FIGURES) > 60


def test_every_field_is_described() -> None:
    """Every field says what it is, for the schema and for who has it refused."""
    assert [name for name, field in ALL.items() if not (field.description or "").strip()] == []


def says_its_unit(name: str, field: FieldInfo) -> bool:
    """Whether a whole number ends in its unit, which its description names, or is a count."""
    last = name.split(".")[1]
    ends = [end for end in UNITS if last.endswith(end)]
    return UNITS[max(ends, key=len)] in (field.description or "") if ends else last in COUNTS


def test_every_figure_ends_in_its_unit_and_says_so() -> None:
    """A reading's unit is never guessed: it stands in the name and in the description."""
    assert [name for name, field in FIGURES.items() if not says_its_unit(name, field)] == []
    assert not says_its_unit("Probe.depth", FIGURES["Probe.depth_nm"])
    assert not says_its_unit("Probe.depth_pl", FIGURES["Probe.depth_nm"])


def takes(field: FieldInfo, value: object) -> bool:
    """Whether a field accepts a value."""
    try:
        adapter(field).validate_python(value)
    except ValidationError:
        return False
    return True


def test_figures_take_whole_numbers_of_63_bits_alone() -> None:
    """No text, float or truth slips in as a figure, nor one that a database can't hold."""
    odd: list[object] = [1.0, "1", True, 2**63, -(2**63) - 1, float("nan")]
    loose = {
        name: bad for name, field in FIGURES.items() if (bad := [v for v in odd if takes(field, v)])
    }

    assert loose == {}
    assert takes(FIGURES["Probe.depth_nm"], 1)


def test_typed_texts_stand_beside_their_figures() -> None:
    """What was typed is kept next to the figure that it became."""
    amounts = {"amount", "temperature"}  # one text for whichever of several figures it was
    alone = []
    for name in (name for name in ALL if name.endswith("_typed")):
        model, field = name.split(".")
        stem = field.removesuffix("_typed")
        figures = {f"{model}.{stem}{end}" for end in UNITS} | {f"{model}.{stem}_id"}
        if stem not in amounts and not figures & set(ALL):
            alone.append(name)

    assert alone == []


def test_bodies_and_their_parts_are_frozen_and_pass_over_other_fields() -> None:
    """A recorded reading is never altered; a field of a newer version costs no entry."""
    models = {*KINDS.values(), *(inner for kind in KINDS.values() for inner in all_inner(kind))}

    assert {(model.model_config["frozen"], model.model_config["extra"]) for model in models} == {
        (True, "ignore")
    }
    assert len(models) > len(KINDS)
    with pytest.raises(EntryRefusedError, match="no_such_field"):
        build_body("note", {"text": "x", "no_such_field": 1})


def test_what_is_left_out_or_needed_is_an_optional_field() -> None:
    """Neither list names a field that is not there, or that always says something."""
    models = {*KINDS.values(), *(inner for kind in KINDS.values() for inner in all_inner(kind))}
    named = {
        (model, name)
        for model in models
        if issubclass(model, Record)
        for name in {*model.left_out, *getattr(model, "needs", ())}
    }

    assert [
        f"{model.__name__}.{name}"
        for model, name in named
        if name not in model.model_fields or model.model_fields[name].is_required()
    ] == []
    assert (KINDS["machine"], "deepest_nm") in named
    assert [kind for kind, model in KINDS.items() if not model.needs.keys() <= model.left_out] == []


def test_every_body_has_a_kind_of_its_own() -> None:
    """No two bodies share a kind, and none is left out of the table."""

    def below(model: type[Body]) -> Iterator[type[Body]]:
        for child in model.__subclasses__():
            yield child
            yield from below(child)

    ours = {model for model in below(Body) if model.__module__.startswith("models.")}
    assert set(KINDS.values()) == ours
    assert set(FIELDS) == set(KINDS)
