"""Parallel lines over a surface: where each begins and ends, and which stubs are dropped."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from typing import Any

from models.counted import CountedNoun
from models.errors import CalculationInputError
from models.science.layout.clipping import Pieces, clip_upright
from models.science.layout.cuttable_ground import Ground, open_shape
from models.science.layout.layout_types import LaidSegment, Layout, LinePattern, Stub
from models.science.layout.round_clipping import clip_round
from models.science.shapes.geometry_library import numpy, shapely
from models.science.shapes.rings import PointNm, show_both
from models.science.shapes.rotated_frame import Frame

SLACK_NM = 1_000_000
"""A width that passes a whole number of spacings by a millimetre gets no line for it."""

MOST_LINES = 20_000


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
    Clipping is done in a frame turned so that lines stand upright, in floats (good to a
    few nanometres on a kilometre, by what the turning rounds); ends are then rounded to
    the nanometre. A line on the very edge may be counted in or out. Derived here.

    Examples
    --------
    By hand: a field 60 ft wide at 16 in holds 60 x 12 / 16 = 45 lines, half a spacing in.

    >>> from models.science.shapes.offsets import rectangle
    >>> field = Ground((rectangle(60 * 304_800_000, 100 * 304_800_000),))
    >>> layout = lay_lines(field, LinePattern(406_400_000))
    >>> layout.line_count, layout.length_nm // 304_800_000, layout.first_nm
    (45, 4500, 203200000)
    """
    _refuse_bad_pattern(pattern)
    shape = open_shape(ground)
    frame = Frame(ground.origin, pattern.bearing_udeg)
    shape = _turned(shape, frame)
    left, _, right, _ = (float(bound) for bound in shapely.bounds(shape))
    width_nm = round(right - left)
    count, first_nm = _row(width_nm, pattern)
    across = round(left) + first_nm + numpy.arange(count) * float(pattern.spacing_nm)
    clipped = clip_upright(shape, across)
    if ground.rounds:
        places = [round(place) for place in across.tolist()]
        clipped = clip_round(clipped, places, _courses(ground, frame))
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
            why=(
                f"a ground {show_both(width_nm)} wide would get "
                f"{CountedNoun(max(count, 0)):line|lines}"
            ),
            accepted=f"Give a spacing and a first line that make 1 to {MOST_LINES} lines",
        )
    return count, first_nm


def _courses(ground: Ground, frame: Frame) -> Iterator[tuple[list[PointNm], int]]:
    """Circles and corridors in the frame of the lines, with how far lines keep from them."""
    for one in ground.rounds:
        yield list(map(frame.place, one.corners)), one.half_nm + one.clearance_nm


def _turned(shape: Any, frame: Frame) -> Any:
    """A shape in the frame: across for x, along for y."""
    sine, cosine = frame.sine_cosine
    turn = numpy.array([[cosine, sine], [-sine, cosine]])
    return shapely.transform(shape, lambda points: points @ turn)


def _points(frame: Frame, across: Any, along: Any) -> list[PointNm]:
    """Places of the frame in the plane, as ``Frame.point`` gives them one by one."""
    sine, cosine = frame.sine_cosine
    east = numpy.rint(across * cosine + along * sine).astype(numpy.int64)
    north = numpy.rint(along * cosine - across * sine).astype(numpy.int64)
    x_nm, y_nm = frame.origin
    return [PointNm(x_nm + x, y_nm + y) for x, y in zip(east.tolist(), north.tolist(), strict=True)]


def _named(layout: Layout, pieces: Pieces) -> tuple[tuple[LaidSegment, ...], tuple[Stub, ...]]:
    """Pieces by their names, and the stubs among them."""
    across = layout.across_nm(1) + pieces.lines * float(layout.pattern.spacing_nm)
    starts = _points(layout.frame, across, pieces.begins)
    ends = _points(layout.frame, across, pieces.ends)
    numbers = (pieces.lines + 1).tolist()
    begins, stops = (along.astype(numpy.int64).tolist() for along in (pieces.begins, pieces.ends))
    least_nm = max(layout.pattern.least_nm, 1)
    lengths = [stop - begin for begin, stop in zip(begins, stops, strict=True)]
    rows = list(zip(numbers, starts, ends, lengths, begins, stops, strict=True))
    stubs = tuple(Stub(*row[:4]) for row in rows if row[3] < least_nm)
    rows = [row for row in rows if row[3] >= least_nm]
    names = _names(layout, [row[0] for row in rows])
    return tuple(map(LaidSegment, names, *zip(*rows, strict=True))), stubs


def _names(layout: Layout, numbers: list[int]) -> list[str]:
    """Names of pieces by the numbers of their lines; letters where a line has several."""
    digits = max(2, len(str(layout.line_count)))
    names: list[str] = []
    for number, count in Counter(numbers).items():
        name = f"{layout.pattern.prefix}{number:0{digits}d}"
        letters = piece_letters(count) if count > 1 else [""]
        names += [name + letter for letter in letters]
    return names


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
