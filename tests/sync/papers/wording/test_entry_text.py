"""An entry in one line on paper: what its kind says, then its fields that say something."""

from __future__ import annotations

import pytest

from models.entries.bodies.collector_work import OutletSeen, UtilityMet
from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
from models.entries.body import Body
from models.entries.envelope import Entry
from models.units import NM_PER, LengthUnit
from models.units.job_units import Figures
from sync.papers.wording.entry_text import details_of

FT = NM_PER[LengthUnit.FT]
AT = "45.123457, -93.654321 by position, good to 10 ft: dig by hand well beyond it"
SD_NM = 10 * FT
LAT_NDEG, LON_NDEG = 45_123_456_700, -93_654_321_000
TEXTS: dict[str, Body] = {
    f"gas hit: by the oak, 18 in deep, left open, {AT}": UtilityMet(
        event="hit",
        what="gas",
        where="by the oak",
        depth_nm=FT + FT // 2,
        action="left open",
        placed_by="position",
        lat_ndeg=LAT_NDEG,
        lon_ndeg=LON_NDEG,
        placed_sd_nm=SD_NM,
    ),
    "wire found: in the rough": UtilityMet(event="found", what="wire", where="in the rough"),
    f"C1: runs slowly, behind the reeds, {AT}": OutletSeen(
        outlet_id="C1",
        flows="slow",
        note="behind the reeds",
        placed_by="position",
        lat_ndeg=LAT_NDEG,
        lon_ndeg=LON_NDEG,
        placed_sd_nm=SD_NM,
    ),
    "C1: dry": OutletSeen(outlet_id="C1", flows="dry"),
    "L1: pipe laser, number 77-1, calibrated Wed Apr 1, 2026": Instrument(
        instrument_id="L1",
        what="pipe_laser",
        serial="77-1",
        plane_asec10=75,
        rod_step_nm=FT // 100,
        peg_every_days=14,
        calibrated_on="2026-04-01",
    ),
    "L1: automatic level": Instrument(
        instrument_id="L1", what="automatic_level", rod_step_nm=FT // 100
    ),
    "L1: dropped, off the tailgate": InstrumentEvent(
        instrument_id="L1", what="dropped", note="off the tailgate"
    ),
    "L1: midway A 4.00, B 5.00, then A 3.00, B 4.01 from 6.0 ft and 206.0 ft, windy": PegTest(
        instrument_id="L1",
        mid_a_nm=4 * FT,
        mid_b_nm=5 * FT,
        end_a_nm=3 * FT,
        end_b_nm=4 * FT + FT // 100,
        to_a_nm=6 * FT,
        to_b_nm=206 * FT,
        note="windy",
    ),
}


@pytest.mark.parametrize("text", TEXTS)
def test_fields_stand_in_their_order(text: str) -> None:
    """What was left open is not there, and a place by position comes behind all else."""
    body = TEXTS[text]
    entry = Entry(
        id="a-1",
        stream="a",
        seq=1,
        lc=1,
        kind=body.kind,
        v=1,
        at_ms=0,
        offset_min=0,
        zone="UTC",
        author="Wren",
        job="larkfield",
        day="2026-05-11",
        strikes=(),
        reason="",
        body=body,
        raw=b"",
    )

    assert details_of(entry, Figures()) == text
