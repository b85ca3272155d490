"""Top of a pipe and the ground over it."""

from __future__ import annotations

from models.science.levelling.laser_plane import Length


def top_of_pipe_nm(invert_nm: Length, outside_nm: int, wall_nm: int) -> Length:
    """Elevation of the outside top of a pipe from its invert.

    Parameters
    ----------
    invert_nm : int or Fraction
        Inside bottom. [nm above datum]
    outside_nm : int
        Outside diameter. [nm]
    wall_nm : int
        Thickness of the wall. [nm]

    Returns
    -------
    top : int or Fraction
        Outside top. [nm above datum]

    Notes
    -----
    The invert is one wall above the outside bottom; the obvert, the inside
    top, is one wall below this. Derived here.

    Examples
    --------
    By hand: 100 + 12 - 1 = 111.

    >>> top_of_pipe_nm(100, 12, 1)
    111
    """
    return invert_nm + outside_nm - wall_nm


def cover_nm(ground_nm: Length, top_nm: Length) -> Length:
    """Depth of ground over a pipe.

    Parameters
    ----------
    ground_nm : int or Fraction
        Finished ground. [nm above datum]
    top_nm : int or Fraction
        Obvert or outside top, whichever the tolerance speaks of. [nm above datum]

    Returns
    -------
    cover : int or Fraction
        Ground less top; negative when the pipe stands out. [nm]

    Notes
    -----
    Derived here.

    Examples
    --------
    By hand: 130 - 111 = 19.

    >>> cover_nm(130, 111)
    19
    """
    return ground_nm - top_nm
