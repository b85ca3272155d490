"""The ledger: every length that was cut, counted once, by line, pass, surface and day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from itertools import chain
from typing import NamedTuple, get_args

from models.entries.bodies.passes import PassCut, PieceCut
from models.entries.bodies.surfaces import Surface
from models.entries.envelope import AnyEntry, Entry
from models.entries.keys import LineKey, line_key
from models.entries.kind_names import SURFACE
from models.ledger.coverage import SHORT_NM, CutShare, Interval, cover_line, join_intervals, left_of
from models.ledger.pass_pieces import pieces_of
from models.plan.line import LineUse
from models.science.layout.drive_pieces import Source
from models.state.indexes import CUTS_OF, PASSES
from models.state.job_state import JobState, Place

SOURCES: tuple[Source, ...] = get_args(Source)
"""What a length may rest on, the surest first."""


PiecesByLine = dict[str, list[PieceCut]]
"""Pieces of a pass by their line."""


class PieceTally(NamedTuple):
    """A piece of a pass with what it added to its line, in nm."""

    entry_id: str
    pass_id: str
    day: str
    piece: PieceCut
    share: CutShare


class LineTally(NamedTuple):
    """A line: planned, done, cut again, beyond it, lacking at its ends, left; in nm.

    ``planned`` is None where no plan has the line; then all of it is ``off_plan``.
    ``done + short + left`` is ``planned``.
    """

    planned: int | None
    done: int
    again: int
    beyond: int
    off_plan: int
    short: int
    left: int
    cut: tuple[Interval, ...]
    pieces: tuple[PieceTally, ...]

    @property
    def is_cut(self) -> bool:
        """Whether nobody has to go back to it."""
        return bool(self.cut) and not self.left

    @property
    def left_places(self) -> tuple[Interval, ...]:
        """Stretches of it that are still to be cut, from its planned start."""
        if self.planned is None or not self.left:
            return ()
        return left_of(self.planned, self.cut)


class Tally(NamedTuple):
    """Lengths of several pieces together, ``by_source`` as they stand in ``SOURCES``, in nm."""

    done: int = 0
    again: int = 0
    beyond: int = 0
    off_plan: int = 0
    by_source: tuple[int, ...] = (0,) * len(SOURCES)

    def plus(self, tally: PieceTally) -> Tally:
        """Lengths of the tally and of one piece more."""
        share, place = tally.share, SOURCES.index(tally.piece.by)
        by = list(self.by_source)
        by[place] += share.done
        return Tally(
            self.done + share.done,
            self.again + share.again,
            self.beyond + share.beyond,
            self.off_plan + share.off_plan,
            tuple(by),
        )

    @property
    def cut_nm(self) -> int:
        """Length of slit that lies there, whatever it counts for."""
        return self.done + self.again + self.beyond + self.off_plan


def total_of(tallies: Iterable[PieceTally]) -> Tally:
    """Lengths of pieces added up."""
    total = Tally()
    for tally in tallies:
        total = total.plus(tally)
    return total


class Ledger:
    """Lengths of every pass, line by line, kept up to date entry by entry.

    A line is worked out when it is asked for, and again only after an entry touched it: a
    pass in it or its strike, or a new plan of its surface. Cuts count in the order of their
    days, then of the book; so what was done up to a day never depends on a later one.
    """

    def __init__(self, state: JobState) -> None:
        self._state = state
        self._lines: dict[LineKey, LineTally] = {}
        self._on: dict[str, set[LineKey]] = defaultdict(set)
        self._pieces: dict[str, dict[str, PiecesByLine]] = defaultdict(dict)
        self._tallies: dict[LineKey, dict[str, list[PieceTally]]] = {}
        state.listeners.append(self)

    def entry_in(self, entry: AnyEntry) -> None:
        """Forget the lines that an entry touches."""
        if isinstance(entry.body, PassCut):
            self._forget(entry.id, entry.body)
        elif isinstance(entry.body, Surface):
            self._forget_surface(entry.body.surface_id)

    def entry_out(self, entry: AnyEntry) -> None:
        """Forget the lines of an entry that was crossed out."""
        self.entry_in(entry)

    def state_emptied(self) -> None:
        """Forget every line, since the state is folded again."""
        self._lines.clear()
        self._tallies.clear()
        self._on.clear()
        self._pieces.clear()

    def _forget(self, entry_id: str, cut: PassCut) -> None:
        self._pieces[cut.surface_id].pop(entry_id, None)
        for line_id in cut.line_ids:
            key = line_key(cut.surface_id, line_id)
            if self._lines.pop(key, None) is not None:
                self._tallies.pop(key, None)
                self._on[cut.surface_id].discard(key)

    def _forget_surface(self, surface_id: str) -> None:
        for key in self._on.pop(surface_id, ()):
            del self._lines[key]
            self._tallies.pop(key, None)
        self._pieces.pop(surface_id, None)

    def line(self, surface_id: str, line_id: str) -> LineTally:
        """Return a line as it is cut, whether or not a plan has it."""
        key = line_key(surface_id, line_id)
        found = self._lines.get(key)
        if found is None:
            found = self._lines[key] = self._line(surface_id, line_id)
            self._on[surface_id].add(key)
        return found

    def line_on(self, surface_id: str, line_id: str, day: str) -> LineTally:
        """Return a line as it was cut at the end of a day; as it is now for none."""
        found = self.line(surface_id, line_id)
        if not day or all(piece.day <= day for piece in found.pieces):
            return found
        return self._line(surface_id, line_id, day)

    def line_before(self, surface_id: str, line_id: str, entry: Entry[PassCut] | None) -> LineTally:
        """Return a line as it was cut before a pass; as it is now where none is given."""
        if entry is None:
            return self.line(surface_id, line_id)
        return self._line(surface_id, line_id, before=(entry.day, self._state.place_of(entry)))

    def lines(self, surface: Surface) -> dict[str, LineTally]:
        """Return every planned line of a surface as it is cut, by name."""
        own = surface.surface_id
        return {one.line_id: self.line(own, one.line_id) for one in surface.lines}

    def pass_pieces(self, entry: Entry[PassCut]) -> tuple[PieceTally, ...]:
        """Return the pieces of a pass that stands, with what each added."""
        own = entry.body.surface_id
        return tuple(
            piece
            for line_id in dict.fromkeys(entry.body.line_ids)
            for piece in self._by_entry(own, line_id).get(entry.id, ())
        )

    def _by_entry(self, surface_id: str, line_id: str) -> dict[str, list[PieceTally]]:
        """Pieces of a line by the entry of their pass."""
        key = line_key(surface_id, line_id)
        tally = self.line(surface_id, line_id)
        found = self._tallies.get(key)
        if found is None:
            found = self._tallies[key] = defaultdict(list)
            for piece in tally.pieces:
                found[piece.entry_id].append(piece)
        return found

    def every_piece(self) -> Iterator[tuple[str, LineUse, PieceTally]]:
        """Yield every piece that stands, with its surface and use, pass by pass."""
        for entry in self._state.current(PASSES):
            own = entry.body.surface_id
            for tally in self.pass_pieces(entry):
                yield own, self.use_of(own, tally.piece.line_id), tally

    def use_of(self, surface_id: str, line_id: str) -> LineUse:
        """Use of a line as planned; a line that no plan has counts as a sand slit."""
        surface = self._state.latest(SURFACE, surface_id)
        place = surface.places.get(line_id) if surface is not None else None
        return place.line.use if place is not None else "sand_slit"

    def pieces_in(self, entry: Entry[PassCut]) -> tuple[PieceCut, ...]:
        """Return the pieces of a pass as written, or read from an old one."""
        return tuple(chain.from_iterable(self._pieces_by_line(entry).values()))

    def _pieces_by_line(self, entry: Entry[PassCut]) -> PiecesByLine:
        """Pieces of a pass by their line, in the order in which they are written."""
        own = entry.body.surface_id
        found = self._pieces[own].get(entry.id)
        if found is None:
            surface = self._state.latest(SURFACE, own)
            found = self._pieces[own][entry.id] = defaultdict(list)
            for piece in pieces_of(entry.body, surface.places if surface is not None else {}):
                found[piece.line_id].append(piece)
        return found

    def _line(
        self,
        surface_id: str,
        line_id: str,
        until: str = "",
        before: tuple[str, Place] | None = None,
    ) -> LineTally:
        surface = self._state.latest(SURFACE, surface_id)
        place = surface.places.get(line_id) if surface is not None else None
        planned = place.line.length_nm if place is not None else None
        filed = self._state.current(CUTS_OF, line_key(surface_id, line_id))
        entries = {
            entry.id: entry
            for entry in filed
            if (not until or entry.day <= until)
            and (before is None or (entry.day, self._state.place_of(entry)) < before)
        }
        cuts = [
            (entry, piece)
            for entry in sorted(entries.values(), key=_day_of)
            for piece in self._pieces_by_line(entry).get(line_id, ())
            if piece.to_nm > piece.from_nm
        ]
        cuts = list(_in_place(planned, cuts))
        found = cover_line(planned, [Interval(one.from_nm, one.to_nm) for _, one in cuts])
        pieces = tuple(
            PieceTally(entry.id, entry.body.pass_id, entry.day, piece, share)
            for (entry, piece), share in zip(cuts, found.shares, strict=True)
        )
        total = total_of(pieces)
        return LineTally(
            planned,
            total.done,
            total.again,
            total.beyond,
            total.off_plan,
            found.short,
            found.left,
            found.cut,
            pieces,
        )


def ledger_of(state: JobState) -> Ledger:
    """Ledger of a job; the first call begins it."""
    for listener in state.listeners:
        if isinstance(listener, Ledger):
            return listener
    return Ledger(state)


def _in_place(
    planned_nm: int | None, cuts: Sequence[tuple[Entry[PassCut], PieceCut]]
) -> Iterator[tuple[Entry[PassCut], PieceCut]]:
    """Pieces where they lie in their line, each with its pass.

    A piece of an old pass did not say where it lay: it is taken to lie in what was left of
    the line where it fits there, as parts of a line were logged then, else at its start. A
    line that one pass names twice was cut twice.
    """
    covered: tuple[Interval, ...] = ()
    named: set[str] = set()
    for entry, piece in cuts:
        placed = piece
        left = left_of(planned_nm, covered) if planned_nm is not None and covered else ()
        left_nm = sum(one.length_nm for one in left)
        fits = bool(left) and piece.length_nm <= left_nm + SHORT_NM
        if piece.by == "old" and fits and entry.id not in named:
            ends = {"from_nm": left[0].from_nm, "to_nm": left[0].from_nm + piece.length_nm}
            placed = piece.model_copy(update=ends)
        named.add(entry.id)
        if planned_nm is not None:
            inside = Interval(max(placed.from_nm, 0), min(placed.to_nm, planned_nm))
            covered = join_intervals((*covered, inside)) if inside.length_nm > 0 else covered
        yield entry, placed


def _day_of(entry: AnyEntry) -> str:
    return entry.day
