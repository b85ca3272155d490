"""Network of pipes from where water gets in down to an outlet, as plain nodes and reaches.

Every node has at most one reach that leads on, so that a sound network is a forest with its
outlets as roots. Flow adds up along it; what has no way to an outlet is passed on nowhere.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from models.errors import CalculationInputError


class Match(StrEnum):
    """Levels that may be matched where two pipes meet."""

    OBVERT = "obvert"
    INVERT = "invert"
    DROP = "drop"


@dataclass(frozen=True, slots=True)
class NetworkReach:
    """A stretch of one pipe at one grade between two nodes.

    Attributes
    ----------
    reach_id : str
        Its name, which no other reach has. [-]
    upper, lower : str
        Nodes that water comes from and goes to. [-]
    length_nm : int
        Length along the pipe. [nm]
    invert_upper_nm, invert_lower_nm : Fraction
        Inverts at its ends. [nm above datum]
    bore_nm : int
        Inside diameter. [nm]
    roughness : float
        Manning's n. [s/m^(1/3)]
    is_joined : bool
        Whether water turns into another pipe at its lower end, which costs head. [-]
    bend_degrees : float
        Sum of the bends along it. [degrees]
    """

    reach_id: str
    upper: str
    lower: str
    length_nm: int
    invert_upper_nm: Fraction
    invert_lower_nm: Fraction
    bore_nm: int
    roughness: float
    is_joined: bool = False
    bend_degrees: float = 0.0

    @property
    def grade(self) -> Fraction:
        """Fall for each unit of run, negative where it rises with the flow [-]."""
        return (self.invert_upper_nm - self.invert_lower_nm) / self.length_nm

    @property
    def obvert_upper_nm(self) -> Fraction:
        """Inside top at its upper end [nm above datum]."""
        return self.invert_upper_nm + self.bore_nm

    @property
    def obvert_lower_nm(self) -> Fraction:
        """Inside top at its lower end [nm above datum]."""
        return self.invert_lower_nm + self.bore_nm


@dataclass(frozen=True, slots=True)
class Network:
    """Reaches of pipe, the outlets that they lead to and the areas that drain to their nodes.

    Attributes
    ----------
    reaches : tuple of NetworkReach
        Every reach, in any order. [-]
    tailwaters_nm : mapping of str to int or None
        Nodes that are outlets, each with the level of the water that stands there; None
        where it is not known and taken as below the outlet. [nm above datum]
    areas_m2 : mapping of str to float
        Area whose water gets in at a node. [m2]
    """

    reaches: tuple[NetworkReach, ...]
    tailwaters_nm: Mapping[str, int | None]
    areas_m2: Mapping[str, float]


def downstream_of(reaches: Sequence[NetworkReach]) -> dict[str, NetworkReach]:
    """Find the one reach that leads on from each node.

    Parameters
    ----------
    reaches : sequence of NetworkReach
        The reaches. [-]

    Returns
    -------
    onward : dict of str to NetworkReach
        Reach that leaves each node with the flow. [-]

    Raises
    ------
    CalculationInputError
        If two reaches leave one node, a reach has no length, or water would go in a circle.

    Notes
    -----
    Derived here; by its own walk, node by node.

    Examples
    --------
    By inspection.

    >>> pipe = NetworkReach("a", "head", "out", 10, Fraction(5), Fraction(0), 4, 0.015)
    >>> downstream_of([pipe])["head"].lower
    'out'
    """
    onward: dict[str, NetworkReach] = {}
    for reach in reaches:
        if reach.upper in onward:
            raise CalculationInputError(**_unsound(f"two reaches lead on from {reach.upper}"))
        if reach.length_nm <= 0:
            raise CalculationInputError(**_unsound(f"{reach.reach_id} has no length"))
        onward[reach.upper] = reach
    circle = circle_in({node: reach.lower for node, reach in onward.items()})
    if circle:
        names = ", ".join(circle)
        raise CalculationInputError(**_unsound(f"water would go in a circle through {names}"))
    return onward


def circle_in(onward: Mapping[str, str]) -> tuple[str, ...]:
    """Find names that lead back to themselves.

    Parameters
    ----------
    onward : mapping of str to str
        What each name leads on to; a name without an entry ends there. [-]

    Returns
    -------
    circle : tuple of str
        Names of the first circle found, in the order of the flow; () if there is none. [-]

    Notes
    -----
    Each name is walked once, so it takes time in proportion to their number.

    Examples
    --------
    By inspection: what joins itself is a circle of one.

    >>> circle_in({"C1": "C2", "C2": "outlet"}), circle_in({"C3": "C3"})
    ((), ('C3',))
    >>> circle_in({"C0": "C1", "C1": "C2", "C2": "C1"})
    ('C1', 'C2')
    """
    sound: set[str] = set()
    for first in onward:
        walk: dict[str, None] = {}
        name: str | None = first
        while name is not None and name not in sound:
            if name in walk:
                names = list(walk)
                return tuple(names[names.index(name) :])
            walk[name] = None
            name = onward.get(name)
        sound.update(walk)
    return ()


def _unsound(why: str) -> dict[str, str]:
    return {
        "what": "the network of pipes",
        "why": why,
        "accepted": "Let each pipe lead to one place only, and in the end to an outlet",
    }


def reaches_an_outlet(network: Network) -> frozenset[str]:
    """Find every node from which reaches lead to an outlet, outlets included.

    Parameters
    ----------
    network : Network
        The network. [-]

    Returns
    -------
    nodes : frozenset of str
        Nodes that water can leave. [-]

    Notes
    -----
    Derived here.

    Examples
    --------
    By inspection: the second pipe ends where nothing leads on.

    >>> pipes = (
    ...     NetworkReach("a", "head", "out", 10, Fraction(5), Fraction(0), 4, 0.015),
    ...     NetworkReach("b", "other", "pit", 10, Fraction(5), Fraction(0), 4, 0.015),
    ... )
    >>> sorted(reaches_an_outlet(Network(pipes, {"out": None}, {})))
    ['head', 'out']
    """
    return frozenset(network.tailwaters_nm) | {
        reach.upper for reach in reaches_from_outlets(network)
    }


def reaches_from_outlets(network: Network) -> list[NetworkReach]:
    """Put the reaches that lead to an outlet in order, from the outlets up.

    Parameters
    ----------
    network : Network
        The network. [-]

    Returns
    -------
    reaches : list of NetworkReach
        Each after the one that it flows into; what leads to no outlet is left out. [-]

    Raises
    ------
    CalculationInputError
        If it is no forest.

    Notes
    -----
    Derived here.

    Examples
    --------
    By inspection.

    >>> lower = NetworkReach("a", "middle", "out", 10, Fraction(5), Fraction(0), 4, 0.015)
    >>> upper = NetworkReach("b", "head", "middle", 10, Fraction(9), Fraction(5), 4, 0.015)
    >>> network = Network((upper, lower), {"out": None}, {})
    >>> [reach.reach_id for reach in reaches_from_outlets(network)]
    ['a', 'b']
    """
    downstream_of(network.reaches)
    arriving: dict[str, list[NetworkReach]] = {}
    for reach in network.reaches:
        arriving.setdefault(reach.lower, []).append(reach)
    found: list[NetworkReach] = []
    nodes = list(network.tailwaters_nm)
    for node in nodes:  # grows while it is walked
        for reach in arriving.get(node, ()):
            if reach.upper not in network.tailwaters_nm:
                found.append(reach)
                nodes.append(reach.upper)
    return found


def areas_above(network: Network) -> dict[str, float]:
    """Add up the area whose water passes each reach.

    Parameters
    ----------
    network : Network
        The network. [m2]

    Returns
    -------
    areas : dict of str to float
        By the name of each reach that leads to an outlet. [m2]

    Notes
    -----
    Only what is joined is passed on. The flow in a reach is the rate times this. Derived here.

    Examples
    --------
    By inspection.

    >>> lower = NetworkReach("a", "middle", "out", 10, Fraction(5), Fraction(0), 4, 0.015)
    >>> upper = NetworkReach("b", "head", "middle", 10, Fraction(9), Fraction(5), 4, 0.015)
    >>> areas_above(Network((upper, lower), {"out": None}, {"head": 2.0, "middle": 3.0}))
    {'b': 2.0, 'a': 5.0}
    """
    gathered = dict(network.areas_m2)
    areas: dict[str, float] = {}
    for reach in reversed(reaches_from_outlets(network)):
        areas[reach.reach_id] = gathered.get(reach.upper, 0.0)
        gathered[reach.lower] = gathered.get(reach.lower, 0.0) + areas[reach.reach_id]
    return areas


def arriving_invert_nm(
    invert_nm: Fraction, bore_nm: int, own_bore_nm: int, match: Match, drop_nm: int = 0
) -> Fraction:
    """Invert at which a pipe has to arrive where it meets another.

    Parameters
    ----------
    invert_nm : Fraction
        Invert of the pipe that it meets, there. [nm above datum]
    bore_nm : int
        Inside diameter of the pipe that it meets. [nm]
    own_bore_nm : int
        Inside diameter of the pipe that arrives. [nm]
    match : Match
        What stands level: the obverts, the inverts, or a stated drop between inverts. [-]
    drop_nm : int
        The drop. [nm]

    Returns
    -------
    invert : Fraction
        Invert of the arriving pipe at its lower end [nm above datum]

    Notes
    -----
    Level obverts are the rule: the smaller pipe is then never drowned by a larger one that
    runs free. Derived here.

    Examples
    --------
    By hand: a 100 mm pipe into a 150 mm pipe arrives 50 mm above its invert.

    >>> mm = 10**6
    >>> int(arriving_invert_nm(Fraction(0), 150 * mm, 100 * mm, Match.OBVERT)) // mm
    50
    """
    if match is Match.OBVERT:
        return invert_nm + bore_nm - own_bore_nm
    return invert_nm + (drop_nm if match is Match.DROP else 0)
