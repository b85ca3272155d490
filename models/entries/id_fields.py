"""Ids in a body of any kind: the pass, surface, collector, material, line or setup it is about.

Whoever knows the kind of an entry reads its field; these are for entries of several kinds.
A body that names none gives "".
"""

from __future__ import annotations

from typing import Final

from models.entries.bodies.after_rain import InfiltrationTest, Repair, SandTopUp, SurfaceSeen
from models.entries.bodies.collector_work import HoldPoint, LayerCheck, TrenchProtection
from models.entries.bodies.day import (
    DayClosed,
    DayReopened,
    Disposition,
    Signature,
    Struck,
)
from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
from models.entries.bodies.job import Material
from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
from models.entries.bodies.loads import Delivery, SpoilAway
from models.entries.bodies.material_tests import BoxWeighing, BulkingTest, SieveTest
from models.entries.bodies.passes import (
    PassCut,
    PipeLaid,
    Probe,
    SandPlaced,
    TurfStrip,
    WateredIn,
)
from models.entries.bodies.planning import DrainageTerms, SurfaceLayout, Tie
from models.entries.bodies.surfaces import Collector, Surface
from models.entries.bodies.tablets import TabletRevoked
from models.entries.body import Body

# The kinds that are met most often stand first: they are looked through in turn.
_OF_PASS: Final = (Probe, PassCut, SandPlaced, TurfStrip, WateredIn)
_OF_SURFACE: Final = (
    PassCut,
    SandPlaced,
    PipeLaid,
    TurfStrip,
    WateredIn,
    Surface,
    SurfaceLayout,
    SpoilAway,
    SurfaceSeen,
    InfiltrationTest,
    SandTopUp,
    Repair,
    DrainageTerms,
    Tie,
)
_OF_COLLECTOR: Final = (
    GradeShot,
    LayerCheck,
    PipeLaid,
    HoldPoint,
    LaserSetup,
    TrenchProtection,
    Collector,
    Surface,
    Repair,
    Tie,
)
_OF_MATERIAL: Final = (
    SandPlaced,
    PipeLaid,
    Delivery,
    Material,
    SieveTest,
    BoxWeighing,
    BulkingTest,
    SandTopUp,
)
_OF_LINE: Final = (Probe, PipeLaid, Repair, Tie)
_OF_LINES: Final = (PassCut, TurfStrip, SandTopUp)
_OF_SETUP: Final = (GradeShot, CheckShot, TurningPoint, LaserSetup)
_OF_INSTRUMENT: Final = (LaserSetup, PegTest, InstrumentEvent, Instrument)
_OF_DAY: Final = (DayClosed, Signature, DayReopened)
_WITH_REASON: Final = (Struck, Disposition, DayReopened, Repair, TabletRevoked)


def pass_id_of(body: Body | None) -> str:
    """The pass that a body names."""
    return body.pass_id if isinstance(body, _OF_PASS) else ""


def surface_id_of(body: Body | None) -> str:
    """The surface that a body names."""
    return body.surface_id if isinstance(body, _OF_SURFACE) else ""


def collector_id_of(body: Body | None) -> str:
    """The collector that a body names."""
    return body.collector_id if isinstance(body, _OF_COLLECTOR) else ""


def material_id_of(body: Body | None) -> str:
    """The material that a body names."""
    return body.material_id if isinstance(body, _OF_MATERIAL) else ""


def line_id_of(body: Body | None) -> str:
    """The one line that a body names."""
    return body.line_id if isinstance(body, _OF_LINE) else ""


def line_ids_of(body: Body | None) -> tuple[str, ...]:
    """The lines that a body names together, leg by leg; () where it names none so."""
    return body.line_ids if isinstance(body, _OF_LINES) else ()


def setup_id_of(body: Body | None) -> str:
    """The setup of the laser that a body names."""
    return body.setup_id if isinstance(body, _OF_SETUP) else ""


def instrument_id_of(body: Body | None) -> str:
    """The instrument that a body names."""
    return body.instrument_id if isinstance(body, _OF_INSTRUMENT) else ""


def act_day_of(body: Body | None) -> str:
    """The day that a body is of, where it is not that of its entry, as YYYY-MM-DD."""
    return body.of_day if isinstance(body, _OF_DAY) else ""


def body_reason(body: Body | None) -> str:
    """Why something was done, as a body gives it."""
    return body.why if isinstance(body, _WITH_REASON) else ""
