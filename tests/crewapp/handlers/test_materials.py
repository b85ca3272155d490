"""Actions of materials: a sieve sheet, a box weighed, a jar flooded."""

from __future__ import annotations

from fractions import Fraction

import pytest

from crewapp.commands.loads import TakeDelivery
from crewapp.commands.materials import LogBoxWeighing, LogBulking, LogSieveTest
from crewapp.handlers.loads import UnknownMaterialError
from crewapp.job.dispatch import do
from crewapp.job.open_job import OpenJob
from models.entries.bodies.material_tests import SieveTest
from models.entries.envelope import EntryRefusedError
from models.queries.materials.material_properties import bulking_of
from models.queries.materials.sand_balance import on_hand_pl

HELD = ((500, 20_000), (250, 50_000), (150, 30_000), (0, 0))


def test_a_sieve_sheet_is_flagged_when_it_is_out(job: OpenJob) -> None:
    """A sheet with 30 % of fine sand raises its flag at once."""
    changed = do(job, LogSieveTest(material_id="sand", held=HELD, edition="USGA 1993"))
    body = changed.entries[0].body

    assert isinstance(body, SieveTest)
    assert [(one.opening_um, one.retained_mg) for one in body.weights] == list(HELD)
    assert [finding.check for finding in changed.come] == ["sand_grading"]


def test_a_box_weighed_changes_what_is_on_hand(job: OpenJob) -> None:
    """From the box on, a mass delivered is the volume that the box says."""
    do(job, TakeDelivery(material_id="sand", mass_ug=10**12))
    do(job, LogBoxWeighing(material_id="sand", volume_pl=10**13, mass_ug=2 * 10**10))

    assert on_hand_pl(job.state, "sand") == 5 * 10**14


def test_a_jar_gives_the_bulking(job: OpenJob) -> None:
    """200 mm moist and 160 mm flooded are 25 %."""
    do(job, LogBulking(material_id="sand", moist_nm=200, flooded_nm=160, moist_typed="200 mm"))
    found = bulking_of(job.state, "sand")

    assert found is not None
    assert found.share == Fraction(1, 4)


def test_tests_need_a_material_of_the_job(job: OpenJob) -> None:
    """What the job doesn't use is not tested."""
    with pytest.raises(UnknownMaterialError):
        do(job, LogSieveTest(material_id="gold", held=HELD))
    with pytest.raises(UnknownMaterialError):
        do(job, LogBoxWeighing(material_id="gold", volume_pl=1, mass_ug=1))
    with pytest.raises(UnknownMaterialError):
        do(job, LogBulking(material_id="gold", moist_nm=2, flooded_nm=1))


def test_flooded_sand_never_stands_higher(job: OpenJob) -> None:
    """A jar read the wrong way round is refused."""
    with pytest.raises(EntryRefusedError, match="cannot stand higher"):
        do(job, LogBulking(material_id="sand", moist_nm=160, flooded_nm=200))
