"""Views of the Pass screen: the next pass to cut, and the open pass."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from crewapp.commands.query import Query
from crewapp.kit.drawing.plan_picture import PlanPicture
from crewapp.kit.input.body_questions import Question
from crewapp.kit.look.palette import Status
from crewapp.pages.go_ahead.view import GoAheadView
from crewapp.pages.passes.probe_places import (
    STEP_METRIC_NM,
    STEP_US_NM,
    ProbePlace,
    ProbeRule,
    ProbeStretch,
    next_place,
    probes_wanted,
)
from crewapp.words.translate import say
from models.queries.layout.drive_pieces import DrivePlan
from models.units.job_units import Figures

TURF_STEPS = ("lifted", "put_back", "rolled")


@dataclass(frozen=True, slots=True)
class Choice:
    """Choice to tap: its name, a detail, how it stands."""

    key: str
    text: str
    detail: str = ""
    status: str = ""


@dataclass(frozen=True, slots=True)
class DepthLimits:
    """Limits of a line's pattern on its depth and width."""

    design_nm: int
    least_nm: int
    most_nm: int
    width_nm: int = 0


@dataclass(frozen=True, slots=True)
class LineWork:
    """Line of the open pass, with its readings."""

    line_id: str
    use: str
    limits: DepthLimits | None = None
    rule: ProbeRule = ProbeRule(0, 0)
    pipe_text: str = ""
    from_nm: int = 0  # what the pass cut of it, from its planned start
    to_nm: int = 0

    @property
    def length_nm(self) -> int:
        """Length of what the pass cut of the line, nm."""
        return self.to_nm - self.from_nm


@dataclass(frozen=True, slots=True)
class PassEntry:
    """Entry of the open pass, struck ones too, newest first."""

    entry_id: str
    kind: str
    title: str
    detail: str
    status: str = ""
    is_struck: bool = False
    line_id: str = ""
    along_nm: int = 0
    depth_nm: int = 0
    is_overtaken: bool = False  # by a later reading or cut at its place

    @property
    def counts(self) -> bool:
        """Whether it is a probe that counts: neither struck nor overtaken."""
        return self.kind == "probe" and not self.is_struck and not self.is_overtaken


@dataclass(frozen=True, slots=True)
class SandCard:
    """Sand of the open pass against its cut."""

    text: str
    detail: str
    status: str
    materials: tuple[Choice, ...] = ()
    share: str = ""  # how full the cut is, where that can be told


@dataclass(frozen=True, slots=True)
class Coil:
    """A coil with what is left on it."""

    coil_id: str
    material_id: str
    text: str
    status: str = ""


@dataclass(frozen=True, slots=True)
class PassCard:
    """Open pass with its lines, sand and entries."""

    pass_id: str
    entry_id: str
    lines: tuple[LineWork, ...]
    length_nm: int
    written: tuple[PassEntry, ...]
    sand: SandCard
    coils: tuple[Coil, ...] = ()
    turf_done: tuple[str, ...] = ()
    is_watered: bool = False

    def line(self, line_id: str) -> LineWork | None:
        """Return a line of the pass by its name."""
        return next((line for line in self.lines if line.line_id == line_id), None)

    @property
    def probed_distances(self) -> dict[str, list[int]]:
        """Distances already probed on each line."""
        taken: dict[str, list[int]] = {line.line_id: [] for line in self.lines}
        for row in self.written:
            if row.kind == "probe" and not row.is_struck and row.line_id in taken:
                taken[row.line_id].append(row.along_nm)
        return taken


@dataclass(frozen=True, slots=True)
class PlanLeft:
    """A line of the surface that may be cut next."""

    line_id: str
    use: str
    length_nm: int
    length_text: str
    is_cut: bool


@dataclass(frozen=True, slots=True)
class PassView:
    """View of the whole Pass screen."""

    figures: Figures
    surface_id: str = ""
    surface_name: str = ""
    ground: str = ""  # green, field or fairway
    picture: PlanPicture = PlanPicture()
    surfaces: tuple[Choice, ...] = ()
    machines: tuple[Choice, ...] = ()
    machine_id: str = ""
    use: str = "sand_slit"
    uses: tuple[Choice, ...] = ()
    lines: tuple[PlanLeft, ...] = ()
    picked: tuple[str, ...] = ()
    lifted: tuple[str, ...] = ()
    passes: tuple[Choice, ...] = ()
    blades: tuple[Choice, ...] = ()  # what may be noted of the machine's blades
    blade_text: str = ""  # what was done to them last
    sod_text: str = ""  # thickness of the turf put back here today
    card: PassCard | None = None
    ahead: GoAheadView | None = None  # whether the next pass may be cut
    job_name: str = ""
    questions: tuple[Question, ...] = ()  # what else may be said of the next pass
    drive: DrivePlan = DrivePlan(())  # what the lines picked come to as one drive

    @property
    def planned_nm(self) -> int:
        """Planned length of the drive along the lines picked, nm."""
        return self.drive.length_nm

    @property
    def has_unequal_pieces(self) -> bool:
        """Whether one length says too little: a leg comes up, or cuts less than another."""
        return any(one.from_nm or one.to_nm != self.drive.length_nm for one in self.drive.stretches)

    @property
    def is_strip_first(self) -> bool:
        """Whether the turf strip over the lines picked has to be lifted before the cut."""
        return self.ground == "green" and not set(self.picked) <= set(self.lifted)


@dataclass(frozen=True, slots=True)
class Verdict:
    """Verdict on a reading: its state and a few words."""

    status: Status
    text: str


def judge_depth(limits: DepthLimits | None, depth_nm: int, figures: Figures) -> Verdict:
    """Return the verdict on a depth: a reading on a limit is within it."""
    read = figures.depth(depth_nm)
    if limits is None:
        return Verdict(Status.NOT_MEASURED, say("{depth}, no design", depth=read))
    if depth_nm < limits.least_nm:
        off = figures.depth(limits.least_nm - depth_nm)
        return Verdict(Status.OUT, say("{depth}: {off} shallow", depth=read, off=off))
    if depth_nm > limits.most_nm:
        off = figures.depth(depth_nm - limits.most_nm)
        return Verdict(Status.OUT, say("{depth}: {off} deep", depth=read, off=off))
    return Verdict(Status.OK, read)


def step_nm(figures: Figures) -> int:
    """Return the step that places along a line are proposed in."""
    return STEP_US_NM if figures.is_us else STEP_METRIC_NM


def next_probe(card: PassCard, figures: Figures) -> ProbePlace | None:
    """Return where to probe next, or None when every line has what it wants."""
    return next_place(_stretches(card), card.probed_distances, step_nm(figures))


def _stretches(card: PassCard) -> dict[str, ProbeStretch]:
    """What the pass cut of each line, with the rule for its probes."""
    return {
        line.line_id: ProbeStretch(line.from_nm, line.length_nm, line.rule) for line in card.lines
    }


def probes_left(card: PassCard, figures: Figures) -> int:
    """Return how many probes the pass still wants."""
    taken = card.probed_distances
    return sum(
        probes_wanted(stretch, taken[line_id], step_nm(figures))
        for line_id, stretch in _stretches(card).items()
    )


def count_probes(card: PassCard) -> int:
    """Return how many probes of the pass stand."""
    return sum(len(places) for places in card.probed_distances.values())


def last_reading(card: PassCard) -> PassEntry | None:
    """Return the newest probe that stands, or None."""
    return next((row for row in card.written if row.kind == "probe" and not row.is_struck), None)


def probes_status(card: PassCard) -> Status:
    """Return how the probes of the pass stand together; one taken again counts as it is now."""
    found = [row.status for row in card.written if row.counts]
    if not found:
        return Status.NOT_MEASURED
    return Status.OUT if Status.OUT in found else Status.OK


def places_out_of_limits(card: PassCard, line_id: str) -> tuple[int, ...]:
    """Return the distances along a line whose reading is out, to be probed again."""
    own = [row for row in card.written if row.counts and row.line_id == line_id]
    return tuple(sorted({row.along_nm for row in own if row.status == Status.OUT}))


def next_turf(card: PassCard) -> str:
    """Return the next step of the turf strip, or "" when it is rolled."""
    return next((step for step in TURF_STEPS if step not in card.turf_done), "")


def next_step(card: PassCard, ground: str, figures: Figures) -> str:
    """Return what the pass needs next: probe, pipe, sand, finish, or "" for nothing."""
    if probes_left(card, figures) or not card.written:
        return "probe"
    if any(line.use == "piped_slit" and not line.pipe_text for line in card.lines):
        return "pipe"
    if card.sand.status == Status.NOT_MEASURED:
        return "sand"
    return "finish" if ground == "green" and next_turf(card) else ""


def toggle_line(picked: tuple[str, ...], line_id: str, order: tuple[str, ...]) -> tuple[str, ...]:
    """Return the lines picked with one more, or one less, in the order of the plan."""
    chosen = set(picked) ^ {line_id}
    return tuple(name for name in order if name in chosen)


def drive_question(view: PassView, length_nm: int) -> str:
    """Return the sentence on a length driven beside the length planned, a question if they part."""
    planned = view.figures.length(view.planned_nm)
    if not length_nm or not view.drive.stretches:
        return say("By the plan this pass is {length} long.", length=planned)
    match = view.drive.match(length_nm)
    driven = view.figures.length(length_nm)
    if match.agrees == "stopped":
        return say(
            "{driven} driven of {planned}: did it stop here?", driven=driven, planned=planned
        )
    if match.agrees == "ran_over":
        return say(
            "{driven} driven of {planned}: did it run over the end, or is this another pass?",
            driven=driven,
            planned=planned,
        )
    return say("{driven} driven of {planned}.", driven=driven, planned=planned)


def piece_rows(view: PassView, length_nm: int, typed: Mapping[str, int]) -> list[dict[str, object]]:
    """Return the pieces of a drive of a length as rows of a list; by the plan without one."""
    match = view.drive.match(length_nm or view.planned_nm) if view.drive.stretches else None
    rows: list[dict[str, object]] = []
    for one in match.pieces if match is not None else ():
        given = typed.get(one.line_id)
        by_plan = given is None and (one.by == "plan" or not length_nm)
        figure = view.figures.length(given if given is not None else one.to_nm - one.from_nm)
        rows.append(
            {
                "key": one.line_id,
                "title": one.line_id,
                "detail": say("typed")
                if given is not None
                else say("from the stakes")
                if by_plan
                else say("length driven"),
                "figure": figure,
                "status": Status.NOT_MEASURED if by_plan else Status.OK,
            }
        )
    return rows


@dataclass(frozen=True, slots=True, kw_only=True)
class ShowPass(Query[PassView]):
    """Query for what the Pass page shows of a surface; what is not chosen is proposed."""

    surface_id: str = ""
    pass_id: str = ""
    machine_id: str = ""
    use: str = ""
    picked: Sequence[str] = ()
