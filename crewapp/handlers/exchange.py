"""Exchange of the open job: identity checked before, the job's state brought up after."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from crewapp.handlers.tablets import introduce_self, uphold_held
from crewapp.job.open_job import OpenJob
from crewapp.tablet.settings import Tablet
from sync.exchange.engine import exchange_book
from sync.exchange.request import ExchangeReport, ExchangeRequest
from sync.stores.contract import Store

RunInWorker = Callable[[Callable[[], Any]], Any]


@dataclass(frozen=True, slots=True)
class _Hands:
    """Whose job is exchanged, and how its worker is asked."""

    job: OpenJob
    tablet: Tablet
    in_worker: RunInWorker


def exchange_job(
    job: OpenJob,
    tablet: Tablet,
    store: Store,
    terms: ExchangeRequest,
    in_worker: RunInWorker = lambda work: work(),
) -> ExchangeReport:
    """Exchange the open job with a store, and bring its state up to date.

    It may run in a thread of its own while the crew goes on writing: what touches the job is
    handed to ``in_worker``, which does it in the job's worker and returns what came of it. The
    keys and the stream of ``terms`` are set here.

    Raises
    ------
    StoreHoldsLessError
        If the store shows less than last time and the terms do not allow it.
    sync.stores.errors.StoreError
        If the store could not be listed.
    """
    hands = _Hands(job, tablet, in_worker)
    in_worker(lambda: _introduce(hands))
    report = _exchange(hands, store, terms)
    written = in_worker(lambda: _tell_on(hands, report))
    if written and terms.sends and not (report.cut or report.is_cancelled):
        second = _exchange(hands, store, replace(terms, allow_less=True))
        in_worker(lambda: _refresh(job, second))
        report.add_retry(second)
    return report


def _exchange(hands: _Hands, store: Store, terms: ExchangeRequest) -> ExchangeReport:
    def renew() -> None:
        hands.job.switch_stream(hands.tablet.renew_stream())

    stream = hands.tablet.stream()
    told = replace(terms, ring=hands.tablet.keys, own_stream=stream, renew=renew)
    return exchange_book(hands.job.book, store, told)


def _introduce(hands: _Hands) -> int:
    name = hands.tablet.settings().tablet_name
    stream, keys = hands.tablet.stream(), hands.tablet.keys
    return len(introduce_self(hands.job, own_stream=stream, ring=keys, name=name).entries)


def _tell_on(hands: _Hands, report: ExchangeReport) -> int:
    """Write what an exchange asks for: the new identity, what is held of a lost tablet."""
    _refresh(hands.job, report)
    stream = hands.tablet.stream()
    written = _introduce(hands) if report.was_identity_used else 0
    return written + len(uphold_held(hands.job, own_stream=stream).entries)


def _refresh(job: OpenJob, report: ExchangeReport) -> None:
    if report.new_rows:
        job.read_anew()
