"""Reads the status of the exchange with other tablets and the office, from book and notes."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

from crewapp.job.open_job import OpenJob
from crewapp.pages.exchange.rejected_presenter import rejected_rows
from crewapp.pages.exchange.unsent_presenter import past_time_text, unsent_entries, unsent_pictures
from crewapp.pages.exchange.view import ExchangeView, TabletRow
from crewapp.tablet.settings import Tablet
from crewapp.words.translate import say
from models.entries.tablet_code import code_of
from models.errors import CrewError
from sync.exchange.status import exchange_status
from sync.stores.address import parse_store_address
from sync.stores.secrets import find_secret
from sync.trust.members import Members

HANDED = ".crew"
MOUNTS = ("/media", "/run/media", "/mnt", "/Volumes", "/storage")


def exchange_view(job: OpenJob | None, tablet: Tablet) -> ExchangeView:
    """Read the view; without an open job it tells of this tablet alone."""
    where = tablet.settings().store
    alone = ExchangeView(
        own_code=code_of(tablet.stream()),
        where=where,
        has_secret=_has_secret(where, tablet),
        handed=handover_files(tablet.folder / "inbox"),
        inbox=str(tablet.folder / "inbox"),
        folders=mounted_folders(),
    )
    if job is None or job.state.job is None:
        return alone
    told = exchange_status(job.book, where, tablet.keys, tablet.stream())
    now = job.clock.now()
    return ExchangeView(
        own_code=alone.own_code,
        where=where,
        has_secret=alone.has_secret,
        job=job.name,
        day=now.day,
        read_only=job.book.read_only_reason or "",
        unsent_entries=unsent_entries(job, where),
        unsent_pictures=unsent_pictures(job, where),
        last=past_time_text(told.last_ms, now.offset_min, now.day, job.figures.is_us),
        is_us=job.figures.is_us,
        may_write=told.may_write,
        is_renewed=_is_renewed(job, tablet, told.members),
        is_open=told.job.is_open,
        tablets=_tablets(told.members, alone.own_code),
        aside=rejected_rows(told.aside, names_of(told.members)),
        handed=alone.handed,
        inbox=alone.inbox,
        folders=alone.folders,
    )


def _has_secret(where: str, tablet: Tablet) -> bool:
    """Whether a password for a store is kept here; one that can't be read is none."""
    try:
        return bool(where) and find_secret(parse_store_address(where), tablet.folder) is not None
    except CrewError:
        return False


def names_of(members: Members) -> dict[str, str]:
    """Return the name of each tablet on a job's list by its code; one without has none."""
    return {one.code: one.name for one in members.tablets.values() if one.name}


def handover_files(folder: Path) -> tuple[str, ...]:
    """Return the hand-over files that lie in a folder."""
    return tuple(sorted(path.name for path in folder.glob(f"*{HANDED}") if path.is_file()))


def mounted_folders(roots: tuple[str, ...] = MOUNTS) -> tuple[str, ...]:
    """Return the sticks and shares that stand ready: what is mounted one or two folders deep."""
    found = []
    for root in roots:
        for deep in ("*", "*/*"):
            try:
                found += [str(path) for path in Path(root).glob(deep) if os.path.ismount(path)]
            except OSError:
                continue
    return tuple(sorted(dict.fromkeys(found)))


def _tablets(members: Members, own: str) -> tuple[TabletRow, ...]:
    founder = code_of(members.job.founder)
    return tuple(
        TabletRow(
            one.code,
            one.name,
            _told_of(one.is_revoked, one.why, one.code == founder),
            one.code == own,
            one.is_revoked,
        )
        for one in sorted(members.tablets.values(), key=lambda one: (one.is_revoked, one.code))
    )


def _told_of(is_off: bool, why: str, is_founder: bool) -> str:
    if is_off:
        return say("taken off: {why}", why=why) if why else say("taken off the list")
    return say("began the job") if is_founder else say("may write")


def _is_renewed(job: OpenJob, tablet: Tablet, members: Members) -> bool:
    """Whether an older code of this very tablet is on the list, and the one of now is not."""
    if members.may_write(tablet.stream()):
        return False
    try:
        return any(
            members.may_write(stream) and tablet.keys.signer(stream) is not None
            for stream in job.book.heads()
        )
    except CrewError:
        return False  # a damaged key vouches for nobody


def entry_senders(
    before: Mapping[str, int], after: Mapping[str, int], names: Mapping[str, str]
) -> list[str]:
    """Return whose entries came, by name or code, those of most entries first."""
    more = {stream: seq - before.get(stream, 0) for stream, seq in after.items()}
    came = sorted((s for s, count in more.items() if count > 0), key=lambda s: (-more[s], s))
    told = [names.get(code_of(stream), "") or code_of(stream) for stream in came]
    return list(dict.fromkeys(one for one in told if one))
