"""Exchange between a job's entries and a store, from the first listing to the last photo."""

from __future__ import annotations

from dataclasses import dataclass

from models.book.store import Book
from sync.exchange.coverage import count_covered, unsigned_entries
from sync.exchange.entry_source import EntrySource, members_of
from sync.exchange.errors import LocalStorageError, StoreHoldsLessError
from sync.exchange.exchange_log import ExchangeLog, StoreListing, known_job
from sync.exchange.fetching import fetch
from sync.exchange.job_folder import JobFolder
from sync.exchange.listing import JobListing, list_job
from sync.exchange.merging import MergeRules, merge
from sync.exchange.photos import NO_THUMBNAILS, PhotoExchange, wanted_photos
from sync.exchange.progress import CancelledError, ProgressReporter
from sync.exchange.request import ExchangeReport, ExchangeRequest, PhotoChoice
from sync.exchange.sealing import seal_new_rows
from sync.exchange.sending import send_segments, wanted_segments
from sync.stores.contract import Store
from sync.stores.errors import StoreError
from sync.trust.members import Job


def exchange_book(book: Book, store: Store, terms: ExchangeRequest) -> ExchangeReport:
    """Exchange an open book with a store: see :func:`exchange`.

    Raises
    ------
    NoJobYetError
        If the book holds no job.
    """
    return exchange(book, JobFolder.of_book(book.path), store, known_job(book), terms)


def exchange(
    source: EntrySource, place: JobFolder, store: Store, job: Job, terms: ExchangeRequest
) -> ExchangeReport:
    """Bring in entries that the book lacks and send out those that the store lacks.

    It can be cut anywhere, by a fault, a signal or ``is_cancelled``, and run again. A store
    that stops answering midway, and storage here that is full, end it with a sentence in
    ``ExchangeReport.cut``; what came before stands.

    Parameters
    ----------
    source : EntrySource
        The entries: a book open to write, or the office's database of one job.
    place : Place
        Where the segments and photos of this job lie on this device.
    store : Store
        Any store.
    job : Job
        The job; with an empty founder it is joined by its key alone.
    terms : Terms
        How to exchange.

    Raises
    ------
    StoreHoldsLessError
        If the store shows less than last time and the terms do not allow it; nothing is done.
    sync.stores.errors.StoreError
        If the store could not even be listed.
    models.book.errors.BookError
        If the book can't be read or written.
    """
    log = ExchangeLog.read(place.log)
    job = log.remember_job(job)
    steps = ProgressReporter(terms.on_step, terms.is_cancelled)
    report = ExchangeReport(job)
    try:
        steps.next_step("list", 0, 1)
        shown = list_job(store, job.key)
        _require_no_less(log, shown, terms)
        report.strange = shown.strange
        _Exchange(source, place, store, shown, log, terms, steps, report).go_through()
        if terms.remembers:
            names = sorted(shown.names())
            sent = sorted([*report.out.names, *report.pictures.sent_names])
            before = log.stores.get(terms.where, StoreListing())
            at_ms = before.at_ms if report.cut else terms.at_ms
            log.stores[terms.where] = StoreListing(at_ms, names, sent)
    except CancelledError:
        report.is_cancelled = True
    finally:
        _keep_notes(log, place, report)
    report.aside = tuple(log.rejected_segments())
    return report


@dataclass(frozen=True, slots=True)
class _Exchange:
    """One exchange in hand: what it works on, and the report that it writes."""

    source: EntrySource
    place: JobFolder
    store: Store
    shown: JobListing
    log: ExchangeLog
    terms: ExchangeRequest
    steps: ProgressReporter
    report: ExchangeReport

    def go_through(self) -> None:
        """Bring in, then out; what was set aside and is not met again is still set aside."""
        report = self.report
        before = self.log.take_retryable()
        try:
            self._bring_in()
            if not report.cut:
                before = {}
            if self.terms.sends:
                self._send_segments()
            if self.terms.photos is not PhotoChoice.NONE and not report.cut:
                self._exchange_pictures()
        except (StoreError, LocalStorageError) as fault:
            report.cut = str(fault)
        finally:
            self.log.restore_rejected(before)

    def _bring_in(self) -> None:
        report, key = self.report, self.report.job.key
        members = members_of(self.source, report.job)
        try:
            fetch(
                self.store,
                self.shown,
                self.place,
                self.log,
                key,
                self.steps,
                lambda stream: members.find(stream) is not None,
                report.count_segment,
            )
        except StoreError as fault:
            report.cut = str(fault)  # what has come can go in, and what is ours can be sealed
        self.steps.next_step("seal", 0, 1)
        sealed = seal_new_rows(self.source, self.place, self.log, self.terms.ring, key)
        report.sealed_rows = sealed.rows
        report.notes += sealed.notes
        merged = merge(self.source, self.place, self.log, report.job, self._rules(), self.steps)
        report.members, report.job = merged.members, merged.members.job
        report.new_rows = merged.rows

    def _rules(self) -> MergeRules:
        terms = self.terms
        return MergeRules(terms.over_gaps, terms.on_rows, terms.own_stream, self._take_new_identity)

    def _take_new_identity(self) -> None:
        if self.terms.renew is not None:  # a book just joined goes on where it was left
            self.report.was_identity_used = True
            self.terms.renew()

    def _send_segments(self) -> None:
        """Send what the store lacks; after a cut only count what waits to go."""
        report, key = self.report, self.report.job.key
        kept = [name for name in self.place.names() if not self.log.is_refused(name)]
        report.unsigned = unsigned_entries(self.source, self.place, kept)
        here = (self.store, self.shown, self.place, self.log)
        wanted = wanted_segments(*here, proves_all=self.terms.proves_all and not report.cut)
        report.out.to_send = count_covered(wanted)
        if not report.cut:
            try:
                send_segments(self.store, wanted, self.place, self.log, key, self.steps, report.out)
            finally:
                report.notes += report.out.notes

    def _exchange_pictures(self) -> None:
        terms, done = self.terms, self.report.pictures
        wanted = wanted_photos(self.source)
        key = self.report.job.key
        trip = PhotoExchange(self.store, self.shown, self.place, key, self.steps, terms.sends, done)
        trip.exchange_thumbs(wanted, terms.thumbnail)
        if wanted and terms.sends and terms.thumbnail is None:
            done.notes.append(NO_THUMBNAILS)
        if terms.photos is PhotoChoice.ALL:
            trip.exchange_photos(wanted)


def _require_no_less(log: ExchangeLog, shown: JobListing, terms: ExchangeRequest) -> None:
    seen = log.stores.get(terms.where, StoreListing()).names
    missing = sorted(set(seen) - shown.names())
    if missing and not terms.allow_less:
        raise StoreHoldsLessError(
            where=terms.where, missing=len(missing), before=len(seen), example=missing[0]
        )


def _keep_notes(log: ExchangeLog, place: JobFolder, report: ExchangeReport) -> None:
    try:
        log.write(place.log)
    except LocalStorageError as fault:  # without them everything is only looked at once more
        report.cut = report.cut or str(fault)
