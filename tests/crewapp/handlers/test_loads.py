"""Actions of loads: deliveries, hoppers, spoil."""

from __future__ import annotations

from typing import Any

import pytest

from crewapp.commands.loads import HaulSpoil, PlaceHopper, TakeDelivery
from crewapp.handlers.loads import (
    HopperUnknownError,
    UnknownMaterialError,
)
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.passes import SandPlaced
from models.entries.envelope import EntryRefusedError
from models.state.indexes import DELIVERED_UG, SPOIL_PL

HALF_YD3_PL = 382_277_428_992_000
"""27 ft3 of 0.3048 m, halved: 0.382277428992 m3, by hand."""


def test_delivery_adds_to_what_came(job: OpenJob) -> None:
    """A delivery counts for its material."""
    body = do(job, TakeDelivery(material_id="sand", ticket="7", mass_ug=10**12)).entries[0].body

    assert isinstance(body, Delivery)
    assert job.state.total(DELIVERED_UG, "sand") == 10**12


def test_delivery_needs_a_material_of_the_job(job: OpenJob) -> None:
    """What the job doesn't use is refused, with what it does."""
    with pytest.raises(UnknownMaterialError, match="no material gold. Its materials are sand"):
        do(job, TakeDelivery(material_id="gold", mass_ug=1))


@pytest.mark.parametrize("amounts", [{}, {"mass_ug": 1, "length_nm": 1}])
def test_delivery_states_one_amount(job: OpenJob, amounts: dict[str, Any]) -> None:
    """A ticket has one figure."""
    with pytest.raises(EntryRefusedError, match="exactly one of mass, volume or length"):
        do(job, TakeDelivery(material_id="sand", **amounts))


@pytest.mark.parametrize(
    ("tenths", "volume_pl", "typed"),
    [(10, HALF_YD3_PL, "1.0 hoppers"), (13, HALF_YD3_PL * 13 // 10, "1.3 hoppers")],
)
def test_hopper_is_counted_in_tenths(job: OpenJob, tenths: int, volume_pl: int, typed: str) -> None:
    """A hopper load has the volume that the material's hopper holds."""
    body = (
        do(job, PlaceHopper(surface_id="G7", material_id="sand", loads_tenths=tenths))
        .entries[0]
        .body
    )

    assert isinstance(body, SandPlaced)
    assert (body.volume_pl, body.amount_typed, body.hoppers_tenths) == (volume_pl, typed, tenths)


def test_hopper_needs_its_volume(job: OpenJob) -> None:
    """Without the volume of a hopper a load has no amount."""
    with pytest.raises(HopperUnknownError, match="loose sand has no hopper volume yet"):
        do(job, PlaceHopper(surface_id="G7", material_id="loose sand"))


def test_spoil_is_hauled(job: OpenJob) -> None:
    """A load of spoil counts for its day."""
    body = do(job, HaulSpoil(volume_pl=7, surface_id="G7", to="yard")).entries[0].body

    assert isinstance(body, SpoilAway)
    assert job.state.total(SPOIL_PL) == 7
