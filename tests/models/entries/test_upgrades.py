"""Old bodies, brought to the newest form on reading and never rewritten."""

from __future__ import annotations

import json
from typing import Any, ClassVar

import pytest

from models.entries import upgrades
from models.entries.bodies.job import Machine
from models.entries.body import Body
from models.entries.envelope import body_fields, canonical_bytes, read_entry
from models.entries.kinds import KINDS
from models.entries.upgrades import STEPS, upgrade
from tests.models.entries.test_envelope import NOTE


class Boulder(Body):
    """A kind that has grown twice: first it was weighed in pounds, then it had no colour."""

    kind: ClassVar[str] = "boulder"
    version: ClassVar[int] = 3

    mass_ug: int
    colour: str


def weigh(body: dict[str, Any]) -> dict[str, Any]:
    """Bring pounds to micrograms: 1 lb is 453,592,370 ug."""
    return {"mass_ug": body["pounds"] * 453_592_370}


def paint(body: dict[str, Any]) -> dict[str, Any]:
    """Give it the colour that all of them had."""
    return {**body, "colour": "grey"}


@pytest.fixture
def boulders(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make the kind and its steps known."""
    monkeypatch.setitem(KINDS, "boulder", Boulder)
    monkeypatch.setitem(upgrades.STEPS, ("boulder", 1), weigh)
    monkeypatch.setitem(upgrades.STEPS, ("boulder", 2), paint)


def raw_boulder(version: int, body: dict[str, Any]) -> bytes:
    """Bytes of a boulder as some version wrote it."""
    return canonical_bytes({**NOTE, "kind": "boulder", "v": version, "body": body})


@pytest.mark.usefixtures("boulders")
@pytest.mark.parametrize(
    ("version", "body"),
    [
        (1, {"pounds": 2}),
        (2, {"mass_ug": 907_184_740}),
        (3, {"mass_ug": 907_184_740, "colour": "grey"}),
    ],
)
def test_body_of_any_version_reads_as_the_newest(version: int, body: dict[str, Any]) -> None:
    """Steps are taken one after another, from the version that wrote the body."""
    entry = read_entry(raw_boulder(version, body))

    assert entry.body == Boulder(mass_ug=907_184_740, colour="grey")


@pytest.mark.usefixtures("boulders")
def test_upgrade_leaves_the_stored_bytes_alone() -> None:
    """An upgraded entry still shows its old version and keeps its bytes."""
    raw = raw_boulder(1, {"pounds": 2})

    entry = read_entry(raw)

    assert (entry.v, entry.raw) == (1, raw)


@pytest.mark.usefixtures("boulders")
def test_body_newer_than_the_app_is_not_guessed_at() -> None:
    """There are no steps backwards."""
    assert read_entry(raw_boulder(4, {"mass_ug": 1, "colour": "red"})).body is None


def test_missing_step_is_a_fault_of_the_program() -> None:
    """A version that no step leads on from raises a KeyError that names it."""
    with pytest.raises(KeyError, match="boulder"):
        upgrade("boulder", 1, {}, 2, {})


def test_every_older_version_has_its_step() -> None:
    """From every version that ever was, a step leads to the next."""
    wanted = {(kind, old) for kind, model in KINDS.items() for old in range(1, model.version)}

    assert set(STEPS) == wanted


MACHINE = (
    b'{"at_ms":1778500000000,"author":"office","body":{"about":"","leg_spacing_nm":1219200000,"legs":2,'
    b'"machine_id":"twin"},"day":"2026-05-11","id":"m1","job":"small","kind":"machine","lc":1,'
    b'"offset_min":0,"reason":"","seq":1,"stream":"tablet-a","strikes":[],"v":1,"zone":"UTC"}'
)
"""A machine as it was written before anybody asked how deep it cuts."""


def test_a_machine_of_before_reads_and_keeps_its_bytes() -> None:
    """How deep it cuts is not known; it is stored only where it was said."""
    entry = read_entry(MACHINE)

    assert isinstance(entry.body, Machine)
    assert entry.body.deepest_nm is None
    assert body_fields(entry.body) == json.loads(MACHINE)["body"]
    deeper = entry.body.model_copy(update={"deepest_nm": 254_000_000})
    assert body_fields(deeper)["deepest_nm"] == 254_000_000
