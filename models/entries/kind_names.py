"""A typed name for every kind of entry, by which a job's state gives entries of it.

The bodies' own modules are named for the type checker alone: whoever only asks for entries of a
kind loads none of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from models.entries.index import EntryKind

if TYPE_CHECKING:
    from models.entries.bodies.after_rain import (
        InfiltrationTest,
        Rain,
        Repair,
        SandTopUp,
        SurfaceSeen,
    )
    from models.entries.bodies.blades import BladeSet
    from models.entries.bodies.collector_work import (
        GoAhead,
        HoldPoint,
        LayerCheck,
        OutletSeen,
        TrenchProtection,
        UtilityMet,
    )
    from models.entries.bodies.day import (
        DayClosed,
        DayReopened,
        Delay,
        Disposition,
        Hours,
        Note,
        Photo,
        Signature,
        Struck,
        Tomorrow,
        Weather,
    )
    from models.entries.bodies.instruments import Instrument, InstrumentEvent, PegTest
    from models.entries.bodies.job import Benchmark, Job, LocateTicket, Machine, Material, Person
    from models.entries.bodies.levels import CheckShot, GradeShot, LaserSetup, TurningPoint
    from models.entries.bodies.loads import Delivery, SpoilAway
    from models.entries.bodies.material_tests import BoxWeighing, BulkingTest, SieveTest
    from models.entries.bodies.outlets import Outlet, Structure
    from models.entries.bodies.passes import (
        PassCut,
        PipeLaid,
        Probe,
        SandPlaced,
        TurfStrip,
        WateredIn,
    )
    from models.entries.bodies.planning import (
        DrainageTerms,
        LocalPlane,
        PermanentPoint,
        SurfaceLayout,
        TakeoffTerms,
        Tie,
        UnitPrice,
    )
    from models.entries.bodies.surfaces import Collector, Surface
    from models.entries.bodies.tablets import TabletAdded, TabletRevoked
    from models.entries.body import Body

JOB: Final[EntryKind[Job]] = EntryKind("job")
BENCHMARK: Final[EntryKind[Benchmark]] = EntryKind("benchmark", under="benchmark_id")
MATERIAL: Final[EntryKind[Material]] = EntryKind("material", under="material_id")
LOCATE_TICKET: Final[EntryKind[LocateTicket]] = EntryKind("locate_ticket", under="ticket")
PERSON: Final[EntryKind[Person]] = EntryKind("person", under="person_id")
MACHINE: Final[EntryKind[Machine]] = EntryKind("machine", under="machine_id")
BLADE_SET: Final[EntryKind[BladeSet]] = EntryKind("blade_set", under="machine_id")
SURFACE: Final[EntryKind[Surface]] = EntryKind("surface", under="surface_id")
COLLECTOR: Final[EntryKind[Collector]] = EntryKind("collector", under="collector_id")
OUTLET: Final[EntryKind[Outlet]] = EntryKind("outlet", under="outlet_id")
STRUCTURE: Final[EntryKind[Structure]] = EntryKind("structure", under="structure_id")
LOCAL_PLANE: Final[EntryKind[LocalPlane]] = EntryKind("local_plane")
LAYOUT: Final[EntryKind[SurfaceLayout]] = EntryKind("layout", under="surface_id")
TAKEOFF_TERMS: Final[EntryKind[TakeoffTerms]] = EntryKind("takeoff_terms")
UNIT_PRICE: Final[EntryKind[UnitPrice]] = EntryKind("unit_price", under="item")
DRAINAGE_TERMS: Final[EntryKind[DrainageTerms]] = EntryKind("drainage_terms", under="surface_id")
PERMANENT_POINT: Final[EntryKind[PermanentPoint]] = EntryKind("permanent_point", under="point_id")
TIE: Final[EntryKind[Tie]] = EntryKind("tie")
PASS: Final[EntryKind[PassCut]] = EntryKind("pass", under="pass_id")
PROBE: Final[EntryKind[Probe]] = EntryKind("probe", under="pass_id")
TURF_STRIP: Final[EntryKind[TurfStrip]] = EntryKind("turf_strip", under="pass_id")
SAND_PLACED: Final[EntryKind[SandPlaced]] = EntryKind("sand_placed", under="pass_id")
WATERED_IN: Final[EntryKind[WateredIn]] = EntryKind("watered_in", under="pass_id")
PIPE_LAID: Final[EntryKind[PipeLaid]] = EntryKind("pipe_laid")
DELIVERY: Final[EntryKind[Delivery]] = EntryKind("delivery", under="material_id")
SPOIL: Final[EntryKind[SpoilAway]] = EntryKind("spoil")
SETUP: Final[EntryKind[LaserSetup]] = EntryKind("setup", under="setup_id")
TURNING_POINT: Final[EntryKind[TurningPoint]] = EntryKind("turning_point", under="setup_id")
CHECK_SHOT: Final[EntryKind[CheckShot]] = EntryKind("check_shot", under="setup_id")
GRADE_SHOT: Final[EntryKind[GradeShot]] = EntryKind("grade_shot", under="collector_id")
INSTRUMENT: Final[EntryKind[Instrument]] = EntryKind("instrument", under="instrument_id")
INSTRUMENT_EVENT: Final[EntryKind[InstrumentEvent]] = EntryKind(
    "instrument_event", under="instrument_id"
)
PEG_TEST: Final[EntryKind[PegTest]] = EntryKind("peg_test", under="instrument_id")
LAYER_CHECK: Final[EntryKind[LayerCheck]] = EntryKind("layer_check", under="collector_id")
HOLD_POINT: Final[EntryKind[HoldPoint]] = EntryKind("hold_point", under="collector_id")
TRENCH_PROTECTION: Final[EntryKind[TrenchProtection]] = EntryKind(
    "trench_protection", under="collector_id"
)
GO_AHEAD: Final[EntryKind[GoAhead]] = EntryKind("go_ahead", under="place")
UTILITY: Final[EntryKind[UtilityMet]] = EntryKind("utility")
OUTLET_SEEN: Final[EntryKind[OutletSeen]] = EntryKind("outlet_seen", under="outlet_id")
HOURS: Final[EntryKind[Hours]] = EntryKind("hours")
WEATHER: Final[EntryKind[Weather]] = EntryKind("weather")
DELAY: Final[EntryKind[Delay]] = EntryKind("delay")
NOTE: Final[EntryKind[Note]] = EntryKind("note")
PHOTO: Final[EntryKind[Photo]] = EntryKind("photo")
TOMORROW: Final[EntryKind[Tomorrow]] = EntryKind("tomorrow")
DISPOSITION: Final[EntryKind[Disposition]] = EntryKind("disposition", under="flag")
SIGNATURE: Final[EntryKind[Signature]] = EntryKind("signature")
DAY_CLOSED: Final[EntryKind[DayClosed]] = EntryKind("day_closed")
DAY_REOPENED: Final[EntryKind[DayReopened]] = EntryKind("day_reopened")
STRUCK: Final[EntryKind[Struck]] = EntryKind("struck")
SIEVE_TEST: Final[EntryKind[SieveTest]] = EntryKind("sieve_test", under="material_id")
BOX_WEIGHING: Final[EntryKind[BoxWeighing]] = EntryKind("box_weighing", under="material_id")
BULKING_TEST: Final[EntryKind[BulkingTest]] = EntryKind("bulking_test", under="material_id")
RAIN: Final[EntryKind[Rain]] = EntryKind("rain")
SURFACE_SEEN: Final[EntryKind[SurfaceSeen]] = EntryKind("surface_seen", under="surface_id")
INFILTRATION_TEST: Final[EntryKind[InfiltrationTest]] = EntryKind(
    "infiltration_test", under="surface_id"
)
SAND_TOP_UP: Final[EntryKind[SandTopUp]] = EntryKind("sand_top_up", under="surface_id")
REPAIR: Final[EntryKind[Repair]] = EntryKind("repair")
TABLET_ADDED: Final[EntryKind[TabletAdded]] = EntryKind("tablet_added")
TABLET_REVOKED: Final[EntryKind[TabletRevoked]] = EntryKind("tablet_revoked")

BY_NAME: Final[dict[str, EntryKind[Body]]] = {
    kind.name: kind for kind in list(vars().values()) if isinstance(kind, EntryKind)
}
"""Every kind by its name, as it stands in an entry."""
