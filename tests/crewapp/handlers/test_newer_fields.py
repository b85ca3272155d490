"""What a newer version wrote into an entry outlives every act of this one on it."""

from __future__ import annotations

import json
from typing import Any, ClassVar

import pytest

from crewapp.commands.entries import Correct
from crewapp.commands.loads import SetHopper
from crewapp.handlers.entries import undo_last, write
from crewapp.handlers.plan.plan_entries import set_up
from crewapp.job.dispatch import do
from crewapp.job.open_job import JobChanges, OpenJob
from crewapp.pages.lines.entry_line import entry_line
from models.book.row import GENESIS, chain_hash, from_raw
from models.entries import envelope
from models.entries.bodies.day import Note
from models.entries.envelope import AnyEntry, body_fields, build_body, canonical_bytes
from models.entries.kind_names import MATERIAL, PASS, PROBE
from models.entries.kinds import KINDS

NEWER = "newer-tablet"


def arrive(job: OpenJob, kind: str, fields: dict[str, Any], **envelope: Any) -> str:
    """Let an entry come from another tablet, as it stands; return its id."""
    last = list(job.book.rows())[-1]
    mine = list(job.book.of_stream(NEWER))
    raw = canonical_bytes(
        {
            **json.loads(last.raw),
            "id": f"newer-{last.lc}",
            "stream": NEWER,
            "seq": len(mine) + 1,
            "lc": last.lc + 1,
            "kind": kind,
            "body": fields,
            "strikes": [],
            "reason": "",
            **envelope,
        }
    )
    job.book.import_rows([from_raw(raw, chain_hash(mine[-1].hash if mine else GENESIS, raw))])
    job.read_anew()
    return f"newer-{last.lc}"


def told(entry: AnyEntry) -> dict[str, Any]:
    """An entry's envelope and body as its bytes say them."""
    found: dict[str, Any] = json.loads(entry.raw)
    return found


def standing(changed: JobChanges, kind: str) -> dict[str, Any]:
    """The body of the one entry of a kind that was written."""
    (entry,) = [entry for entry in changed.entries if entry.kind == kind]
    body: dict[str, Any] = told(entry)["body"]
    return body


@pytest.fixture
def pass_fields() -> dict[str, Any]:
    """A pass with two fields that nobody knows, one of them a group."""
    known = build_body(
        "pass",
        {"pass_id": "G7-01", "surface_id": "G7", "line_ids": ["S01", "S02"], "length_nm": 10**10},
    )
    return {**body_fields(known), "driver": "Wren", "blade": {"worn_um": 20}}


def test_correction_carries_over_what_it_does_not_know(
    job: OpenJob, pass_fields: dict[str, Any]
) -> None:
    """Only what was corrected changes; without unknown fields there is nothing to carry."""
    first = arrive(job, "pass", pass_fields)

    changed = do(job, Correct(entry_id=first, reason="misread", fields={"note": "wet"}))
    again = do(job, Correct(entry_id=changed.entries[0].id, reason="misread", fields={"note": ""}))

    assert standing(changed, "pass") == {**pass_fields, "note": "wet"}
    assert standing(again, "pass") == pass_fields
    assert "needs" not in told(again.entries[0])


def test_undoing_a_correction_brings_them_back(job: OpenJob, pass_fields: dict[str, Any]) -> None:
    """What stands again after a slip is all that stood before it."""
    changed = do(
        job,
        Correct(
            entry_id=arrive(job, "pass", pass_fields), reason="misread", fields={"note": "wet"}
        ),
    )

    assert standing(undo_last(job, changed), "pass") == pass_fields


def test_probe_that_follows_its_pass_keeps_them(job: OpenJob, pass_fields: dict[str, Any]) -> None:
    """A probe that is moved with its pass is written anew, with all that it held."""
    first = arrive(job, "pass", pass_fields)
    probe = {"pass_id": "G7-01", "line_id": "S02", "along_nm": 0, "depth_nm": 250_000_000}
    arrive(job, "probe", {**body_fields(build_body("probe", probe)), "rod": "steel"})

    changed = do(
        job, Correct(entry_id=first, reason="wrong line", fields={"line_ids": ["S01", "S03"]})
    )

    assert standing(changed, "probe")["rod"] == "steel"
    assert [one.body.line_id for one in job.state.current(PROBE, "G7-01")] == ["S03"]


def test_plan_that_is_changed_keeps_them(job: OpenJob) -> None:
    """What is taken for the same thing from now on keeps it, struck or not."""
    name = job.state.every_name(MATERIAL)[0]
    material = job.state.latest(MATERIAL, name)
    assert material is not None
    latest = job.state.current(MATERIAL, name)[-1]
    first = arrive(
        job, "material", {**body_fields(material), "quarry": "north"}, strikes=[latest.id],
        reason="plan changed",
    )  # fmt: skip

    fuller = do(job, SetHopper(material_id=name, hopper_pl=10**15))
    other = set_up(job, "material", **body_fields(material))

    assert standing(fuller, "material") == {
        **body_fields(material),
        "hopper_pl": 10**15,
        "quarry": "north",
    }
    assert (first in fuller.entries[0].strikes, bool(other.entries[0].strikes)) == (False, True)
    assert standing(other, "material") == {**body_fields(material), "quarry": "north"}


LIST: list[tuple[list[int], list[int | None]]] = [
    ([2000, 500, 0], [1, 2, 3]),  # the same
    ([2000, 501, 0], [1, 2, 3]),  # one of as many: the others lie in their places
    ([500, 2000, 0], [2, 1, 3]),  # in another order
    ([500, 0], [2, 3]),  # one less
    ([2000, 1000, 500, 0], [1, None, 2, 3]),  # one more
    ([4000, 250], [None, None]),  # others, and not as many
]


@pytest.mark.parametrize(("openings", "dust"), LIST)
def test_member_of_a_list_keeps_its_own(
    job: OpenJob, openings: list[int], dust: list[int | None]
) -> None:
    """A weight takes over what the same weight held, and no other's."""
    weights = [{"opening_um": um, "retained_mg": 5} for um in (2000, 500, 0)]
    more = [{**one, "dust": number} for number, one in enumerate(weights, start=1)]
    fields = body_fields(build_body("sieve_test", {"material_id": "sand", "weights": weights}))
    first = arrive(job, "sieve_test", {**fields, "weights": more})

    changed = do(
        job,
        Correct(
            entry_id=first,
            reason="misread",
            fields={"weights": [{"opening_um": um, "retained_mg": 5} for um in openings]},
        ),
    )

    assert [one.get("dust") for one in standing(changed, "sieve_test")["weights"]] == dust


class NoteWithColour(Note):
    """A note whose colour changes what it means."""

    left_out: ClassVar[frozenset[str]] = frozenset({"colour"})
    needs: ClassVar[dict[str, str]] = {"colour": "note.colour"}

    colour: str = ""


@pytest.fixture
def _with_colour(monkeypatch: pytest.MonkeyPatch) -> None:
    """A version that knows the colour of notes, and one word more."""
    monkeypatch.setitem(KINDS, "note", NoteWithColour)
    monkeypatch.setattr(envelope, "NEEDS", frozenset({"note.colour", "note.size"}))


@pytest.mark.usefixtures("_with_colour")
def test_word_stands_only_where_its_field_says_something(job: OpenJob) -> None:
    """An entry without the field has the bytes it always had."""
    plain = write(job, build_body("note", {"text": "gate"})).entries[0]
    red = write(job, build_body("note", {"text": "gate", "colour": "red"})).entries[0]

    assert "needs" not in told(plain)
    assert told(red)["needs"] == ["note.colour"]
    assert red.body == NoteWithColour(text="gate", colour="red")


@pytest.mark.usefixtures("_with_colour")
def test_correction_adds_the_words_of_what_it_corrects(job: OpenJob) -> None:
    """Its own words and those of the entry it takes the place of, each once, in order."""
    fields = body_fields(build_body("note", {"text": "gate"}))
    first = arrive(job, "note", {**fields, "size": 2}, needs=["note.size"])

    changed = do(job, Correct(entry_id=first, reason="it is red", fields={"colour": "red"}))

    assert told(changed.entries[0])["needs"] == ["note.colour", "note.size"]
    assert standing(changed, "note") == {**fields, "colour": "red", "size": 2}


def test_word_not_known_leaves_the_entry_unread(job: OpenJob, pass_fields: dict[str, Any]) -> None:
    """It stands in the book as it came, says why it is not read, and is in no figure."""
    id = arrive(job, "pass", pass_fields, needs=["pass.blade"])
    entry = job.state.entries[id]

    assert (entry.body, entry.unfit) == (None, "needs")
    assert [row.raw for row in job.book.rows()][-1] == entry.raw
    assert job.state.current(PASS, "G7-01") == []
    assert "written_by_newer_version" in {finding.check for finding in job.board.findings()}


def test_line_on_the_glass_says_that_there_is_more(
    job: OpenJob, pass_fields: dict[str, Any]
) -> None:
    """As the foot of the sheet does; an entry that is known whole has no such words."""
    id = arrive(job, "pass", pass_fields)
    first = job.state.entries[id]
    plain = write(job, Note(text="gate")).entries[0]

    assert entry_line(first, job.figures).endswith(", holds more than this version shows")
    assert entry_line(plain, job.figures) == "gate"
