"""Changing one input: what moves, what stays, and what can't be read."""

from __future__ import annotations

import pytest

from models.queries.takeoff.inputs import inputs_of
from models.queries.takeoff.what_if import (
    LEVERS,
    Change,
    ChangedTakeoff,
    ChangeUnreadableError,
    read_change,
    try_changes,
)
from models.science.takeoff.items import Item
from tests.models.planned_ground import collector, sand, state_of, surface, terms

STATE = state_of(surface(use="green"), collector(), sand(), terms())


def tried(*texts: str) -> ChangedTakeoff:
    """What moves when some inputs are changed."""
    return try_changes(inputs_of(STATE), [read_change(text) for text in texts])


@pytest.mark.parametrize(
    ("text", "moves"),
    [
        ("swell=30%", {Item.SPOIL_LOOSE}),
        ("sand-truck=2 t", {Item.SAND_TRUCKS}),
        ("wire slack=5%", {Item.WIRE}),
        ("collector-a-day=10 m", {Item.DAYS, Item.WHOLE_DAYS}),
        ("swell=25%", set()),
        ("sand-bulking=25 %", {Item.SAND_LOOSE, Item.HOPPER_LOADS}),
    ],
)
def test_what_moves(text: str, moves: set[Item]) -> None:
    """A changed input moves what hangs on it and nothing else."""
    assert {one.item for one in tried(text).moved} == moves


FIGURES = {
    "overbreak": "7%",
    "swell": "7%",
    "sand waste": "7%",
    "sand bulking": "7%",
    "sand density": "1700 kg/m3",
    "sand truck": "3 t",
    "hopper": "0.2 m3",
    "gravel waste": "7%",
    "gravel density": "100 lb/ft3",
    "gravel truck": "0.3 t",
    "spoil truck": "2 m3",
    "pipe waste": "7%",
    "turf strip": "60 mm",
    "slit width": "30 mm",
    "slit depth": "220 mm",
    "slit pipe": "20 mm",
    "slit coil": "7 m",
    "trench width": "250 mm",
    "bedding": "30 mm",
    "surround over": "20 mm",
    "fabric lap": "20 mm",
    "sod": "20 mm",
    "collector coil": "9 m",
    "wire slack": "7%",
    "wire tails": "3 m",
    "sand slits a day": "77 m",
    "piped slits a day": "77 m",
    "collector a day": "7 m",
}


@pytest.mark.parametrize("name", list(LEVERS))
def test_every_input_moves_something(name: str) -> None:
    """No input can be changed without the take-off minding."""
    assert tried(f"{name.replace(' ', '-')}={FIGURES[name]}").moved


def test_a_price_is_tried_without_being_written() -> None:
    """A price typed for a trial gives an estimate, and the job keeps none."""
    found = tried("price-tees=2.50/each")

    assert [int(line.amount.size) for line in found.after.money] == [250, 250]
    assert len(found.money_moved) == 2
    assert inputs_of(STATE).prices == ()


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("swell", "it is no change"),
        ("=30%", "it is no change"),
        ("swell=", "it is no change"),
        ("swel=30%", "no input is so named"),
        ("swell=30", "'30' is not read as its figure"),
        ("swell=-3%", "is not read as its figure"),
        ("swell=12.55%", "is not read as its figure"),
        ("swell=1/3", "is not read as its figure"),
        ("sand-density=1600", "is not read as its figure"),
        ("sand-density=0 kg/m3", "is not read as its figure"),
        ("sand-truck=two tons", "Cannot change sand truck"),
        ("sand-truck=3 m", "Cannot change sand truck"),
        ("slit-depth=9 lb", "Cannot change slit depth"),
        ("slit-depth=-9 in", "Cannot change slit depth"),
        ("hopper=1/2 t", "Cannot change hopper"),
        ("price-tees=2.50", "its item or its price is not read"),
        ("price-tees=2.505/each", "its item or its price is not read"),
        ("price-gold=2/oz", "its item or its price is not read"),
    ],
)
def test_what_cannot_be_read_is_said(text: str, words: str) -> None:
    """A change that makes no sense is refused with what would be accepted."""
    with pytest.raises(ChangeUnreadableError) as told:
        tried(text)

    assert words in str(told.value)
    assert "Accepted: " in str(told.value)


def test_changes_add_up_in_order() -> None:
    """Of two changes of one input the last holds."""
    both = try_changes(inputs_of(STATE), [Change("swell", "90%"), Change("swell", "25%")])

    assert both.moved == ()


def test_a_slit_twice_as_deep_is_cut_twice() -> None:
    """The depth of both uses is changed, so that all that is cut doubles."""
    found = tried("slit-depth=400 mm")
    sizes = {one.item: (one.before, one.after) for one in found.moved}
    before, after = sizes[Item.SLIT_CUT]

    assert before is not None
    assert after is not None
    assert after.size == 2 * before.size


def test_a_thicker_pipe_takes_sand_of_the_piped_slits_alone() -> None:
    """20 m of a pipe of 25 mm instead of none take 0.0098 m3 of sand, and no length changes."""
    found = tried("slit-pipe=0 mm")
    sizes = {one.item: (one.before, one.after) for one in found.moved}
    before, after = sizes[Item.SLIT_SAND]

    assert before is not None
    assert after is not None
    assert float(after.size - before.size) == pytest.approx(0.0098175e15, rel=1e-4)
    assert Item.SAND_SLIT_LENGTH not in sizes
