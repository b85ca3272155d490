"""Reads what a day's sheet should have and this day lacks, each by its name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crewapp.job.open_job import OpenJob
from crewapp.words.translate import say
from models.entries.bodies.day import Hours
from models.entries.bodies.job import Person
from models.entries.bodies.passes import PassCut
from models.entries.envelope import AnyEntry
from models.entries.kind_names import PERSON
from models.state.check_code import check_code
from models.state.indexes import SIGNED


def missing_of(job: OpenJob, day: str, standing: Sequence[AnyEntry]) -> tuple[tuple[str, str], ...]:
    """Return what the day lacks: the part or form that mends it, and its words."""
    kinds = {entry.kind for entry in standing}
    found = [("hours", text) for text in _hours(job, standing)]
    if "weather" not in kinds:
        found.append(("weather", say("No weather yet")))
    if "tomorrow" not in kinds:
        found.append(("tomorrow", say("Nothing for tomorrow yet")))
    return (*found, *(("sign", text) for text in _signatures(job, day)))


def _hours(job: OpenJob, standing: Sequence[AnyEntry]) -> Iterator[str]:
    """Machines that cut today and people who wrote today, without hours."""
    told = {(e.body.of, e.body.who) for e in standing if isinstance(e.body, Hours)}
    if not any(of == "person" for of, _ in told):
        yield say("No hours of anybody yet")
    else:
        for name in _writers(job, standing):
            if ("person", name) not in told:
                yield say("No hours of {who}, who wrote today", who=name)
    cuts = [entry.body for entry in standing if isinstance(entry.body, PassCut)]
    for machine in dict.fromkeys(cut.machine_id for cut in cuts if cut.machine_id):
        if ("machine", machine) not in told:
            yield say("No hours of {machine}, which cut today", machine=machine)


def _writers(job: OpenJob, standing: Sequence[AnyEntry]) -> list[str]:
    """People of the job under whose name something was written."""
    authors = {entry.author for entry in standing}
    people = [job.state.latest(PERSON, name) for name in job.state.every_name(PERSON)]
    return [
        one.person_id
        for one in people
        if isinstance(one, Person) and authors & {one.person_id, one.name}
    ]


def _signatures(job: OpenJob, day: str) -> Iterator[str]:
    """Who has not signed, and who signed before something more was written."""
    signed = [entry.body for entry in job.state.current(SIGNED, day)]
    by_role = {body.role: body for body in signed}
    owner = job.state.job.owner if job.state.job is not None else ""
    who = {"foreman": say("The foreman"), "owner": owner or say("The owner")}
    code = check_code(job.state, day)
    for role, name in who.items():
        if role not in by_role:
            yield say("{who} has not signed yet", who=name)
        elif by_role[role].check_code != code:
            yield say("{who} signed before later entries", who=name)
