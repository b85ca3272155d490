"""Sentences on the result of a transfer."""

from __future__ import annotations

from collections.abc import Mapping

from crewapp.pages.exchange.presenter import entry_senders, names_of
from crewapp.pages.exchange.view import TransferResult
from crewapp.words.translate import say
from sync.exchange.errors import StoreHoldsLessError
from sync.exchange.request import ExchangeReport
from sync.handover.maker import Handover
from sync.trust.members import Members


def exchange_result(
    report: ExchangeReport, before: Mapping[str, int], after: Mapping[str, int], open_flags: int
) -> TransferResult:
    """Return the result of an exchange; ``before`` and ``after`` are last numbers of streams."""
    names = names_of(report.members) if isinstance(report.members, Members) else {}
    kind = "cut" if report.cut else "stopped" if report.is_cancelled else "whole"
    who = entry_senders(before, after, names) if report.new_rows else []
    return TransferResult(
        kind,
        (*_cut(report), *_moved(report), *_looked_at(report)),
        came=report.new_rows,
        came_from=tuple(who),
        open_flags=open_flags,
    )


def _cut(report: ExchangeReport) -> list[str]:
    if report.cut:
        return [
            report.cut,
            say("What went before stands. Exchange again: it goes on where it was cut."),
        ]
    if report.is_cancelled:
        return [say("Stopped. What went before stands. Exchange again: it goes on from there.")]
    return []


def _moved(report: ExchangeReport) -> list[str]:
    sent = report.out.rows
    told = []
    if report.new_rows:
        told.append(say("Entries that came: {count}", count=report.new_rows))
    if sent:
        told.append(say("Entries that went: {count}", count=sent))
    if report.unsigned:
        text = say("Entries that wait for their tablet's key: {count}", count=report.unsigned_rows)
        told.append(text)
    if report.pictures.came or report.pictures.sent:
        told.append(
            say(
                "Pictures that came: {came}, that went: {went}",
                came=report.pictures.came,
                went=report.pictures.sent,
            )
        )
    if report.pictures.awaited:
        text = say("Pictures that are still to come: {count}", count=report.pictures.awaited)
        told.append(text)
    if not told and not report.cut and not report.is_cancelled:
        told.append(say("Nothing new on either side."))
    return told


def _looked_at(report: ExchangeReport) -> list[str]:
    told = [*report.notes, *report.pictures.notes]
    if report.was_identity_used:
        told.append(
            say(
                "Another tablet wrote under this one's code: one of the two is a copy. This one "
                "goes on under a new code. Nothing is lost, both keep all they wrote."
            )
        )
    return told


def shrunk_store_result(fault: StoreHoldsLessError) -> TransferResult:
    """Return the result of an exchange whose store holds less than last time."""
    text = say(
        "It holds {missing} of the {before:file|files} of this job fewer than last time. It may be "
        "another stick or folder, or somebody cleared it. Nothing was changed.",
        missing=fault.context["missing"],
        before=fault.context["before"],
    )
    return TransferResult("less", (text,))


def join_result(report: ExchangeReport, path: str) -> TransferResult:
    """Return the result of joining a job; ``path`` is "" where its beginning has not come."""
    if path:
        return TransferResult(
            "joined", (*_cut(report), *_moved(report)), report.new_rows, path=path
        )
    lacks = say("The beginning of the job has not come. Try again; it goes on from there.")
    return TransferResult("cut", (*_cut(report), lacks))


def handover_result(made: Handover) -> TransferResult:
    """Return the result of a hand-over: where the file lies and how large it is."""
    size = say("{size} MB", size=f"{made.size / 1_000_000:.1f}")
    with_photos = say("{count:picture|pictures} in it", count=made.photos)
    return TransferResult("made", (size, with_photos, *made.notes), path=str(made.path))
