"""The day sheet as rows to read on the screen, in the order of the sheet's bands."""

from __future__ import annotations

from collections.abc import Iterator

from crewapp.job.open_job import OpenJob
from crewapp.kit.input.list_rows import DayRow, shorten
from crewapp.kit.look.palette import Status
from crewapp.words.translate import say
from models.units import show_duration
from sync.papers.day.facts.day import DaySheet, gather_day
from sync.papers.wording.measures import measure_text

_STATUS = {"OK": Status.OK, "CHECK": Status.CHECK, "OUT": Status.OUT}
_SAID = ("weather", "delay", "utility", "note", "tomorrow")


def sheet_rows(job: OpenJob, day: str) -> tuple[str, tuple[DayRow, ...]]:
    """Return the sheet's title and its facts, one a row, as they will print."""
    sheet = gather_day(job.state, job.board, day)
    head = sheet.head
    title = say("Day sheet")
    if head.number:
        title = say(
            "Sheet {number}, revision {revision}", number=head.number, revision=head.revision
        )
    bands = (
        ("standing", _standing(sheet)),
        ("needs", _needs(sheet)),
        ("figures", _figures(sheet)),
        ("quantities", _quantities(sheet)),
        ("quality", _quality(sheet)),
        ("flags", _flags(sheet)),
        ("crew", _crew(sheet)),
        ("rest", _rest(sheet)),
        ("signed", _signed(sheet)),
    )
    return title, tuple(
        DayRow(f"{band}:{number}", shorten(row[0], 100), *row[1:])
        for band, rows in bands
        for number, row in enumerate(rows)
    )


Row = tuple[str, str, str, str]


def _standing(sheet: DaySheet) -> Iterator[Row]:
    bar = sheet.bar
    yield (f"{bar.standing}: {bar.why}", say("how the day stands"), "", _STATUS[bar.standing])
    yield (bar.done_words, bar.finish, "", "")


def _needs(sheet: DaySheet) -> Iterator[Row]:
    if not sheet.needs:
        yield (say("Nothing needed from the owner"), "", "", Status.OK)
    for need in sheet.needs:
        yield (need.said, say("needs the owner: {kind}", kind=need.kind), "", Status.CHECK)


def _figures(sheet: DaySheet) -> Iterator[Row]:
    for one in sheet.numbers:
        status = _STATUS[one.status] if one.status else ""
        yield (one.label, one.remark, one.value, status)


def _quantities(sheet: DaySheet) -> Iterator[Row]:
    for one in sheet.quantities:
        detail = say(
            "to date {amount}", amount=measure_text(one.measure, one.to_date, sheet.figures)
        )
        if one.plan is not None:
            plan = measure_text(one.measure, one.plan, sheet.figures)
            detail = say("{to_date}, planned {plan}", to_date=detail, plan=plan)
        yield (one.item, detail, measure_text(one.measure, one.today, sheet.figures), "")


def _quality(sheet: DaySheet) -> Iterator[Row]:
    for one in sheet.quality:
        lot = one.lot
        detail = say(
            "{count} read, least {least}, most {most}",
            count=lot.n,
            least=sheet.figures.depth(lot.least_nm),
            most=sheet.figures.depth(lot.most_nm),
        )
        figure = say("{inside} of {count} good", inside=lot.inside, count=lot.n)
        status = Status.OK if lot.inside == lot.n else Status.OUT
        yield (f"{one.where} {one.what}", detail, figure, status)
    for grade in sheet.grades:
        figure = say("{inside} of {count} good", inside=grade.inside, count=grade.n)
        status = Status.OK if grade.inside == grade.n else Status.OUT
        yield (grade.name, say("levels of the pipe"), figure, status)


def _flags(sheet: DaySheet) -> Iterator[Row]:
    for flag in sheet.flags:
        detail = flag.answer or say("stands open")
        status = Status.OK if flag.answer else Status.CHECK
        yield (flag.said, detail, flag.severity.upper(), status)
    for struck in sheet.struck:
        detail = say("struck: {why}", why=struck.reason)
        yield (f"{struck.kind}: {struck.said}", detail, "", "")


def _crew(sheet: DaySheet) -> Iterator[Row]:
    for one in sheet.hours:
        parts = []
        if one.idle_min:
            parts.append(say("{time} standing by", time=show_duration(one.idle_min)))
        if one.down_min:
            parts.append(say("{time} down", time=show_duration(one.down_min)))
        yield (one.who, ", ".join(parts), show_duration(one.run_min), "")


def _rest(sheet: DaySheet) -> Iterator[Row]:
    for line in sheet.in_force(*_SAID, "delivery", "spoil"):
        yield (line.said, f"{line.title}  {line.at}", "", "")
    for photo in sheet.photos:
        yield (photo.caption or say("no caption"), photo.where, say("photo"), "")


def _signed(sheet: DaySheet) -> Iterator[Row]:
    for box in sheet.signatures:
        status = Status.OK if box.is_current else Status.CHECK
        yield (box.name, box.says, "", status)
    yield (say("Check code"), sheet.head.code, "", "")
