"""Parallel lines over a surface: where each begins and ends, and which stubs are dropped."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Any, NamedTuple

from models.calculations.frame import Frame
from models.calculations.ground import Ground, open_shape
from models.calculations.laid_lines import LaidSegment, Layout, LinePattern, Stub
from models.calculations.ring import PointNm, distance_nm, show_both
from models.calculations.shapes import numpy, shapely
from models.errors import CalculationInputError

SLACK_NM = 1_000_000
"""A width that passes a whole number of spacings by a millimetre gets no line for it."""

MOST_LINES = 20_000
_TOUCH_NM = 1_000.0  # a line that only touches a corner is not cut in two by it
_LINE_STRING = 1


class _Pieces(NamedTuple):
    """Pieces of lines as columns: which line, from 0, and from where to where along it."""

    lines: Any
    begins: Any
    ends: Any


def lay_lines(ground: Ground, pattern: LinePattern) -> Layout:
    """Parallel lines over a ground, clipped to it.

    As many lines are laid as keep every edge within half a spacing of one, and the row
    is put in the middle, so that the margins left and right are the same::

        |<- margin ->| 1 |<- s ->| 2 |<- s ->| 3 |<- margin ->|

    Parameters
    ----------
    ground : Ground
        The surface with its keep-outs and setback. [nm]
    pattern : LinePattern
        Spacing, bearing, shortest piece. [nm]

    Returns
    -------
    layout : Layout
        Pieces and stubs in order. [nm]

    Raises
    ------
    CalculationInputError
        If a figure is out of range, more than 20,000 lines would come of it, or nothing of
        the ground is left.

    Notes
    -----
    Clipping is done in a frame turned so that lines stand upright, in floats of the
    geometry library (good to a few nanometres on a kilometre); ends are then rounded to
    the nanometre. A line on the very edge may be counted in or out. Derived here.

    Examples
    --------
    By hand: a field 60 ft wide at 16 in holds 60 x 12 / 16 = 45 lines, half a spacing in.

    >>> from models.calculations.offsets import rectangle
    >>> field = Ground((rectangle(60 * 304_800_000, 100 * 304_800_000),))
    >>> layout = lay_lines(field, LinePattern(406_400_000))
    >>> layout.line_count, layout.length_nm // 304_800_000, layout.first_nm
    (45, 4500, 203200000)
    """
    _refuse_bad_pattern(pattern)
    shape = open_shape(ground)
    frame = Frame(ground.origin, pattern.bearing_udeg)
    shape = _turned(shape, frame)
    left, low, right, high = (float(bound) for bound in shapely.bounds(shape))
    width_nm = round(right - left)
    count, first_nm = _row(width_nm, pattern)
    across = round(left) + first_nm + numpy.arange(count) * float(pattern.spacing_nm)
    clipped = _clip(shape, across, low - pattern.spacing_nm, high + pattern.spacing_nm)
    layout = Layout(pattern, frame, count, width_nm, round(left), first_nm, (), ())
    segments, stubs = _named(layout, clipped)
    return Layout(pattern, frame, count, width_nm, round(left), first_nm, segments, stubs)


def _refuse_bad_pattern(pattern: LinePattern) -> None:
    """Refuse a pattern with figures that mean nothing."""
    if pattern.spacing_nm <= 0 or pattern.least_nm < 0 or (pattern.first_nm or 0) < 0:
        raise CalculationInputError(
            what="the layout",
            why=f"spacing {show_both(pattern.spacing_nm)}, shortest piece "
            f"{show_both(pattern.least_nm)}, first line at {show_both(pattern.first_nm or 0)}",
            accepted="Give a spacing above zero and lengths of zero or more",
        )


def _row(width_nm: int, pattern: LinePattern) -> tuple[int, int]:
    """How many lines stand across a width, and how far in the first is."""
    spacing_nm = pattern.spacing_nm
    if pattern.first_nm is None:
        count = max(1, -((SLACK_NM - width_nm) // spacing_nm))
        first_nm = (width_nm - (count - 1) * spacing_nm) // 2
    else:
        count, first_nm = (width_nm - pattern.first_nm) // spacing_nm + 1, pattern.first_nm
    if not 0 < count <= MOST_LINES:
        raise CalculationInputError(
            what="the layout",
            why=f"a ground {show_both(width_nm)} wide would get {max(count, 0)} lines",
            accepted=f"Give a spacing and a first line that make 1 to {MOST_LINES} lines",
        )
    return count, first_nm


def _turned(shape: Any, frame: Frame) -> Any:
    """A shape in the frame: across for x, along for y."""
    sine, cosine = frame.sine_cosine
    turn = numpy.array([[cosine, sine], [-sine, cosine]])
    return shapely.transform(shape, lambda points: points @ turn)


def _clip(shape: Any, across: Any, low: float, high: float) -> _Pieces:
    """Pieces of upright lines inside a shape; pieces that touch are one.

    All lines go through the overlay at once, many times faster than one by one; where a
    piece stands across then tells whose it is.
    """
    ends = numpy.empty((len(across), 2, 2))
    ends[:, :, 0] = across[:, None]
    ends[:, :, 1] = (low, high)
    lines = shapely.multilinestrings(shapely.linestrings(ends))
    parts = shapely.get_parts(shapely.intersection(lines, shape))
    bounds = shapely.bounds(parts[shapely.get_type_id(parts) == _LINE_STRING]).reshape(-1, 4)
    step = across[1] - across[0] if len(across) > 1 else 1.0
    owners = numpy.rint((bounds[:, 0] - across[0]) / step).astype(numpy.int64)
    order = numpy.lexsort((bounds[:, 1], owners))
    owners, begins, stops = owners[order], bounds[order, 1], bounds[order, 3]
    is_new = numpy.ones(len(owners), dtype=bool)
    is_new[1:] = (owners[1:] != owners[:-1]) | (begins[1:] - stops[:-1] > _TOUCH_NM)
    is_last = numpy.ones(len(owners), dtype=bool)
    is_last[:-1] = is_new[1:]
    return _Pieces(owners[is_new], numpy.rint(begins[is_new]), numpy.rint(stops[is_last]))


def _points(frame: Frame, across: Any, along: Any) -> list[PointNm]:
    """Places of the frame in the plane, as ``Frame.point`` gives them one by one."""
    sine, cosine = frame.sine_cosine
    east = numpy.rint(across * cosine + along * sine).astype(numpy.int64)
    north = numpy.rint(along * cosine - across * sine).astype(numpy.int64)
    x_nm, y_nm = frame.origin
    return [PointNm(x_nm + x, y_nm + y) for x, y in zip(east.tolist(), north.tolist(), strict=True)]


def _named(layout: Layout, pieces: _Pieces) -> tuple[tuple[LaidSegment, ...], tuple[Stub, ...]]:
    """Pieces by their names, and the stubs among them."""
    segments: list[LaidSegment] = []
    stubs: list[Stub] = []
    digits = max(2, len(str(layout.line_count)))
    across = layout.across_nm(1) + pieces.lines * float(layout.pattern.spacing_nm)
    columns = zip(
        (pieces.lines + 1).tolist(),
        _points(layout.frame, across, pieces.begins),
        _points(layout.frame, across, pieces.ends),
        pieces.begins.astype(numpy.int64).tolist(),
        pieces.ends.astype(numpy.int64).tolist(),
        strict=True,
    )
    for number, rows in groupby(columns, key=lambda row: row[0]):
        long: list[tuple[PointNm, PointNm, int, int, int]] = []
        for _, start, end, from_nm, to_nm in rows:
            length_nm = distance_nm(start, end)
            if length_nm < layout.pattern.least_nm or not length_nm:
                stubs.append(Stub(number, start, end, length_nm))
            else:
                long.append((start, end, length_nm, from_nm, to_nm))
        name = f"{layout.pattern.prefix}{number:0{digits}d}"
        letters = piece_letters(len(long)) if len(long) > 1 else [""]
        segments += [
            LaidSegment(name + letter, number, *piece)
            for letter, piece in zip(letters, long, strict=False)
        ]
    return tuple(segments), tuple(stubs)


def piece_letters(count: int) -> list[str]:
    """Letters for the pieces of one line: a to z, then aa, ab, ...

    Parameters
    ----------
    count : int
        How many pieces. [-]

    Returns
    -------
    letters : list of str
        One for each, in order. [-]

    Notes
    -----
    As columns of a sheet are lettered.

    Examples
    --------
    By hand:

    >>> piece_letters(28)[-3:]
    ['z', 'aa', 'ab']
    """
    return [letter for _, letter in zip(range(count), _all_letters(), strict=False)]


def _all_letters() -> Iterator[str]:
    """Letters without end."""
    alphabet = "abcdefghijklmnopqrstuvwxyz"
    yield from alphabet
    for before in _all_letters():
        for letter in alphabet:
            yield before + letter
