"""Views of the Grade screen, and the verdict on a rod reading the moment it is typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from crewapp.kit.look.palette import Status
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.words.translate import say, translate_later
from models.science.levelling.laser_plane import GradeLine, rod_on_grade_nm
from models.science.quality import verdict as proven
from models.units.job_units import Figures
from sync.papers.drawing.primitives import Drawing

SHOT_ON = ("trench_floor", "bedding", "invert", "obvert", "ground", "hub")
ON_WORDS = {
    "trench_floor": translate_later("trench floor"),
    "bedding": translate_later("bedding"),
    "invert": translate_later("invert"),
    "obvert": translate_later("obvert"),
    "ground": translate_later("ground"),
    "hub": translate_later("top of hub"),
}
_HIGH = {
    "trench_floor": translate_later("{rise} high: cut {amount}"),
    "bedding": translate_later("{rise} high: take off {amount}"),
}
_LOW = {
    "trench_floor": translate_later("{rise} low: fill {amount}"),
    "bedding": translate_later("{rise} low: add {amount}"),
}


@dataclass(frozen=True, slots=True)
class Choice:
    """Choice to pick by name."""

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class Aim:
    """Aim of a shot: its design along the collector, and how far off it may lie.

    ``design`` is None where the plan has no line for it. ``is_limit`` says that
    the plan sets the limits for this very thing; else being off asks for a look.
    """

    on: str
    design: GradeLine | None
    high_nm: int = 0
    low_nm: int = 0
    is_limit: bool = False


@dataclass(frozen=True, slots=True)
class SetupView:
    """The laser as it stands: its plane, what it hangs from, and how it was proved.

    ``doubt`` says why no peg test proves the laser, "" where one does or none is asked for.
    ``spread_nm2`` is the variance of what a shot at a station tells, and ``z`` the standard
    deviations that a margin must be worth to be proven.
    """

    setup_id: str
    on_point: str
    plane: GradeLine | None
    height: str
    plane_text: str
    status: str
    proof: str
    doubt: str = ""
    spread_nm2: Callable[[int], Fraction] | None = None
    z: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Verdict:
    """A reading's verdict: its state and what it says, in words."""

    status: str = Status.NOT_MEASURED
    text: str = ""

    @property
    def short(self) -> str:
        """How it lies, without the limit and what to do."""
        return self.text.partition(":")[0].partition(",")[0]


@dataclass(frozen=True, slots=True)
class PipeAdvice:
    """Advice on the pipe: title, what to do, its state."""

    title: str
    detail: str = ""
    status: str = Status.OUT


@dataclass(frozen=True, slots=True)
class GradeView:
    """View of a collector: the setup, the rod's next place, the verdict on the last shot."""

    collector_id: str = ""
    name: str = ""
    collectors: tuple[Choice, ...] = ()
    figures: Figures = field(default_factory=Figures)
    setup: SetupView | None = None
    aims: tuple[Aim, ...] = ()
    on: str = "invert"
    next_nm: int = 0
    last_stations: tuple[tuple[str, int], ...] = ()
    start_nm: int = 0
    end_nm: int = 0
    step_nm: int = 1
    shot_count: int = 0
    dig: GoAheadView | None = None  # whether its trench may be opened
    trench: GoAheadView | None = None  # whether its trench may be entered
    last_title: str = ""
    last: Verdict = field(default_factory=Verdict)
    story: tuple[str, ...] = ()
    told: tuple[PipeAdvice, ...] = ()
    chart: Callable[[float, float], Drawing] | None = None
    design_grade: str = ""

    def aim(self, on: str) -> Aim:
        """Return the aim of one thing to shoot."""
        return next((aim for aim in self.aims if aim.on == on), Aim(on, None))

    def sentences(self) -> list[str]:
        """Words beside the profile, the first to be read first: room may end before the last.

        What has to be put right stands before the fall to a last shot that is on grade.
        """
        faults = [f"{one.title}: {one.detail}" if one.detail else one.title for one in self.told]
        is_good = self.last.status in {Status.OK, Status.NOT_MEASURED}
        return [*faults, *self.story] if is_good else [*self.story, *faults]

    def last_nm(self, on: str) -> int:
        """Station of the last shot of one thing; the first station before there is one."""
        return dict(self.last_stations).get(on, self.start_nm)


def on_grade_nm(view: GradeView, on: str, station_nm: int) -> Fraction | None:
    """Rod reading on grade; None without a laser or a design."""
    aim, setup = view.aim(on), view.setup
    if setup is None or setup.plane is None or aim.design is None:
        return None
    return rod_on_grade_nm(setup.plane, aim.design, station_nm)


def on_grade_words(view: GradeView, on: str, station_nm: int) -> str:
    """The reading on grade, in words: ``on grade 6.34 ft``."""
    rod_nm = on_grade_nm(view, on, station_nm)
    if rod_nm is None:
        return say("no design for {what}", what=say(ON_WORDS[on]))
    if rod_nm < 0:
        return say("the laser is too low to reach it")
    return say("on grade {reading}", reading=view.figures.level(round(rod_nm)))


def judge_reading(
    aim: Aim,
    rod_nm: Fraction | None,
    reading_nm: int,
    figures: Figures,
    proof: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0)),
) -> Verdict:
    """Say how a reading lies: a larger one than on grade is low, a smaller one high.

    On a limit counts as within. Where the plan sets no limit of its own for what
    was shot, being off asks for a look instead of being out. ``proof`` is the variance
    of the level and the standard deviations that prove it.
    """
    if rod_nm is None:
        return Verdict(Status.NOT_MEASURED, say("no design to hold it against"))
    off_nm = rod_nm - reading_nm
    limit_nm = aim.high_nm if off_nm > 0 else aim.low_nm
    words = off_words(aim.on, off_nm, limit_nm, figures)
    if not aim.is_limit:
        return Verdict(Status.OK if abs(off_nm) <= limit_nm else Status.CHECK, words)
    inside_nm = min(aim.high_nm - off_nm, aim.low_nm + off_nm)
    verdict = proven.judge_margin(inside_nm, *proof)
    how = words.partition(":")[0]  # nothing is moved on a reading that is not proven
    if verdict is proven.Verdict.WITHIN:
        return Verdict(Status.OK, say("OK as read, not proven: {how}", how=words))
    if verdict is proven.Verdict.BEYOND:
        return Verdict(Status.CHECK, say("out as read, shoot again: {how}", how=how))
    return Verdict(Status.OK if verdict is proven.Verdict.OK else Status.OUT, words)


def proof_at(setup: SetupView | None, station_nm: int) -> tuple[Fraction, Fraction]:
    """Variance of the level of a shot at a station, and the standard deviations that prove it."""
    if setup is None or setup.spread_nm2 is None:
        return Fraction(0), Fraction(0)
    return setup.spread_nm2(station_nm), setup.z


def off_words(on: str, off_nm: Fraction, limit_nm: int, figures: Figures) -> str:
    """Say how far off design, and what to do about it if that is too far."""
    rise = figures.rise(round(off_nm))
    is_in = abs(off_nm) <= limit_nm
    if not is_in and rise == figures.rise(limit_nm):
        rise = figures.fine(round(off_nm))  # rounded alike, they would seem to agree
    if figures.rise(round(off_nm)) == figures.rise(0) and is_in:
        return say("on grade")
    if is_in:
        template = (
            translate_later("{rise} high, within {limit}")
            if off_nm > 0
            else translate_later("{rise} low, within {limit}")
        )
        return say(template, rise=rise, limit=figures.rise(limit_nm))
    if off_nm > 0:
        return say(
            _HIGH.get(on, translate_later("{rise} high: lower it {amount}")),
            rise=rise,
            amount=rise.split(" ")[0],
        )
    return say(
        _LOW.get(on, translate_later("{rise} low: raise it {amount}")),
        rise=rise,
        amount=rise.split(" ")[0],
    )


def next_station(shot_nm: Sequence[int], start_nm: int, end_nm: int, step_nm: int) -> int:
    """Where the rod goes next: one spacing on, the way the last two shots went.

    It never runs past either end of the collector.
    """
    if not shot_nm:
        return start_nm
    last = shot_nm[-1]
    before = next((one for one in reversed(shot_nm[:-1]) if one != last), start_nm)
    way = -1 if last < before else 1
    return step(last, way, start_nm, end_nm, step_nm)


def step(station_nm: int, ways: int, start_nm: int, end_nm: int, step_nm: int) -> int:
    """Return the station so many spacings on, or the end that is nearer."""
    return min(max(station_nm + ways * step_nm, start_nm), end_nm)
