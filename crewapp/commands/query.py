"""Base class of every query: one thing that a page reads off a job, as a frozen value."""

from __future__ import annotations

from typing import Generic, TypeVar

V = TypeVar("V")


class Query(Generic[V]):
    """Query of a page to a job; ``V`` is the view that comes back.

    A query is data, as a command is. It stands in a ``view`` module beside what it
    returns; the function that answers it stands in the ``presenter`` module of the same name.
    """

    __slots__ = ()
