"""A sports field with a square, heads and a socket kept out, and its passes by a twin machine.

The figures are worked by hand: a field of 100 x 64 m, lines half a metre in, 158 sand rows of
99.000 m at 0.400 m and 25 piped rows of 63.000 m at 4.000 m. Keep-outs with 0.150 m clearance:
the square takes 28.300 m from each of 58 sand rows and 23.500 m from each of 7 piped rows, two
rows lose 2 x 0.500 m to heads, one 0.600 m to the socket.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from models.entries.bodies.job import Machine
from models.entries.bodies.passes import PassCut
from models.entries.bodies.planning import SurfaceLayout
from models.entries.bodies.surfaces import Surface
from models.entries.body import Body
from models.entries.envelope import AnyEntry, body_fields
from models.ledger.ledger import Tally, ledger_of, total_of
from models.plan.collector import PlanPoint
from models.plan.layout import LayoutTerms, PlannedDrive, PlannedKeepOut
from models.plan.line import LineUse
from models.plan.pattern import SlitPattern
from models.queries.layout.drive_pieces import with_pieces
from models.queries.layout.lay_lines import LaidSurface, lay_surface
from models.state.job_state import JobState
from tests.models.checks.written_job import written_entries

M = 1_000_000_000
MM = 1_000_000
SAND_M, PIPED_M = 13_998 * M, 1_410_500 * MM
DAY = "2026-05-04"
TWIN, LONE = "twin", "single"


def ring(west: int, south: int, east: int, north: int) -> tuple[PlanPoint, ...]:
    """A rectangle of the plan, in mm."""
    corners = ((west, south), (east, south), (east, north), (west, north))
    return tuple(PlanPoint(x_nm=x * MM, y_nm=y * MM) for x, y in corners)


def square_of(x: int, y: int, half: int) -> tuple[PlanPoint, ...]:
    """A square round a place, in mm."""
    return ring(x - half, y - half, x + half, y + half)


def pattern(spacing_mm: int) -> SlitPattern:
    """Slits of 25 x 230 mm."""
    return SlitPattern(
        spacing_nm=spacing_mm * MM,
        width_nm=25 * MM,
        width_tolerance_nm=5 * MM,
        depth_nm=230 * MM,
        under_nm=13 * MM,
        over_nm=25 * MM,
        probe_every_nm=20 * M,
        probe_end_nm=2 * M,
    )


@cache
def field() -> LaidSurface:
    """The field with its lines and drives.

    A head of 0.100 m and its clearance, as far as a row through its middle meets it, is a
    square of the same half width.
    """
    outline = ring(0, 0, 100_000, 64_000)
    keep_outs = [
        PlannedKeepOut(name="square", ring=ring(36_000, 20_400, 64_000, 43_600)),
        PlannedKeepOut(name="socket", ring=ring(3_000, 32_050, 3_300, 32_350)),
        *(
            PlannedKeepOut(name=f"head {x} {y}", ring=square_of(x, y, 100))
            for x in (20_000, 80_000)
            for y in (16_200, 47_800)
        ),
    ]
    surface = Surface(
        surface_id="F",
        name="Field",
        use="field",
        outline=outline,
        sand_slits=pattern(400),
        piped_slits=pattern(4_000),
    )
    layout = SurfaceLayout(
        surface_id="F",
        setback_nm=500 * MM,
        keep_outs=tuple(one.model_copy(update={"clearance_nm": 150 * MM}) for one in keep_outs),
        terms=(
            LayoutTerms(
                use="sand_slit",
                spacing_nm=400 * MM,
                bearing_udeg=90_000_000,
                machine_id=TWIN,
                legs=2,
                leg_spacing_nm=1_200 * MM,
                turning_radius_nm=3 * M,
            ),
            LayoutTerms(use="piped_slit", spacing_nm=4 * M, machine_id=LONE),
        ),
    )
    return lay_surface(surface, layout)


def machines() -> list[Body]:
    """The twin with legs 1.2 m apart, and a machine of one leg."""
    return [
        Machine(machine_id=TWIN, legs=2, leg_spacing_nm=1_200 * MM),
        Machine(machine_id=LONE, legs=1),
    ]


def entries_of(bodies: Iterable[Body], days: Sequence[str] = ()) -> list[AnyEntry]:
    """Entries that say what bodies do, in order; ``days`` from the first on."""
    return list(
        written_entries(
            {
                "kind": one.kind,
                "fields": body_fields(one),
                "day": days[number] if number < len(days) else DAY,
            }
            for number, one in enumerate(bodies)
        )
    )


def planned() -> list[Body]:
    """What stands before the first pass."""
    return [*machines(), field().surface, field().layout]


def driven(
    drives: Iterable[tuple[PlannedDrive, int]], state: JobState | None = None
) -> list[PassCut]:
    """Passes over planned drives, each of a length, as they would be written one by one."""
    state = state or JobState(entries_of(planned()))
    done: list[PassCut] = []
    for drive, length_nm in drives:
        cut = PassCut(
            pass_id=f"F-{drive.number}",
            surface_id="F",
            line_ids=drive.line_ids,
            machine_id=TWIN if drive.use == "sand_slit" else LONE,
            length_nm=length_nm,
        )
        done.append(with_pieces(state, cut, earlier=done))
    return done


def worked(passes: Iterable[PassCut]) -> JobState:
    """The job with its plan and passes."""
    return JobState(entries_of([*planned(), *passes]))


def done_on(state: JobState) -> dict[LineUse, Tally]:
    """What is done of each use."""
    uses: tuple[LineUse, ...] = ("sand_slit", "piped_slit")
    pieces = list(ledger_of(state).every_piece())
    return {use: total_of(one for _, of, one in pieces if of == use) for use in uses}


def left_nm(state: JobState) -> int:
    """What is left of every line of the plan."""
    return sum(one.left for one in ledger_of(state).lines(field().surface).values())
