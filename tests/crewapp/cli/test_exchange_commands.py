"""The commands by which a job leaves the tablet: with codes, sentences and exit codes."""

from __future__ import annotations

import json
import shutil
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from crewapp.cli.main import main
from crewapp.tablet.settings import Tablet
from models.book.store import Book
from models.entries.tablet_code import code_of

Captured = pytest.CaptureFixture[str]
Switch = Callable[[str], Tablet]
PLAN = Path(__file__).parents[3] / "fixtures" / "plans" / "small.json"


@pytest.fixture
def switch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Switch:
    """Go on at another tablet."""

    def to(name: str) -> Tablet:
        monkeypatch.setenv("CREWAPP_HOME", str(tmp_path / name))
        return Tablet.of_user()

    return to


@pytest.fixture
def store(tmp_path: Path) -> Path:
    """A folder that all tablets reach."""
    folder = tmp_path / "store"
    folder.mkdir()
    return folder


def examples_text(capsys: Captured, *words: object, code: int = 0) -> dict[str, Any]:
    """Run a command and return what it says to a machine."""
    capsys.readouterr()
    assert main([*map(str, words), "--json"]) == code
    out: dict[str, Any] = json.loads(capsys.readouterr().out)
    return out


def raws(book: Path) -> list[bytes]:
    """Every entry of a book."""
    with Book.open(book, read_only=True) as one:
        return [row.raw for row in one.rows()]


def test_two_tablets_by_code_and_store(
    switch: Switch, store: Path, tmp_path: Path, capsys: Captured
) -> None:
    """Join, be added by code, write, exchange: word for word as the README has it."""
    a, b = tmp_path / "a.book", tmp_path / "b.book"
    switch("one")
    assert main(["plan", str(a), str(PLAN)]) == 0
    first = examples_text(capsys, "sync", a, "--store", store)
    assert (first["entries_out"], first["segments_out"], first["is_whole"]) == (11, 1, True)
    switch("two")
    (job,) = examples_text(capsys, "sync", "--jobs", "--store", store)["jobs"]
    code = examples_text(capsys, "tablets")["this_tablet"]
    assert (
        examples_text(capsys, "sync", b, "--store", store, "--join", job["job"])["new_entries"]
        == 11
    )
    assert main(["plan", str(b), str(PLAN)]) == 0
    examples_text(capsys, "sync", b, "--store", store)
    switch("one")
    waits = examples_text(capsys, "sync", a, "--store", store, code=1)
    assert [one["code"] for one in waits["set_aside"]] == ["exchange.unknown_tablet"]
    examples_text(capsys, "tablets", a, "--add", code.lower(), "--name", "second crew")
    assert examples_text(capsys, "sync", a, "--store", store)["set_aside"] == []
    switch("two")
    examples_text(capsys, "sync", b, "--store", store)

    assert raws(a) == raws(b)
    names = [one["name"] for one in examples_text(capsys, "tablets", b)["tablets"]]
    assert "second crew" in names


def test_tablet_not_on_the_list_is_told(
    switch: Switch, store: Path, demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """What it sends reaches nobody yet, and its code is what somebody must type."""
    a, b, demo = (tmp_path / f"{name}.book" for name in ("a", "b", "demo"))
    switch("one")
    assert main(["plan", str(a), str(PLAN)]) == 0
    examples_text(capsys, "sync", a, "--store", store)
    switch("two")
    (job,) = examples_text(capsys, "sync", "--jobs", "--store", store)["jobs"]
    examples_text(capsys, "sync", b, "--store", store, "--join", job["job"])
    code = examples_text(capsys, "tablets")["this_tablet"]

    assert main(["sync", str(b), "--store", str(store)]) == 0
    out = capsys.readouterr().out
    assert "not on the job's list" in out
    assert code in out
    shutil.copy(demo_book, demo)
    assert main(["sync", str(demo), "--store", str(store)]) == 0
    assert "not on the job's list" not in capsys.readouterr().out


def test_tablet_is_taken_off(switch: Switch, tmp_path: Path, capsys: Captured) -> None:
    """And can't be twice; a code misread changes nothing."""
    switch("one")
    book = tmp_path / "a.book"
    assert main(["plan", str(book), str(PLAN)]) == 0
    code = code_of("ab" * 16)
    examples_text(capsys, "tablets", book, "--add", code)
    gone = examples_text(capsys, "tablets", book, "--revoke", code, "--why", "in the ditch")[
        "tablets"
    ]

    assert [one["may_write"] for one in gone] == [True, False]
    for words in (["--revoke", code], ["--add", code[:-1] + "0"], ["--add", "x"]):
        assert main(["tablets", str(book), *words]) == 2
    assert main(["tablets", "--add", code]) == 2
    assert main(["tablets", str(book)]) == 0
    assert "taken off the list" in capsys.readouterr().out


def test_store_that_is_gone_or_holds_less_exits_1(
    switch: Switch, store: Path, tmp_path: Path, capsys: Captured
) -> None:
    """A sentence, and the way on."""
    switch("one")
    book = tmp_path / "a.book"
    assert main(["plan", str(book), str(PLAN)]) == 0
    for _ in range(2):
        examples_text(capsys, "sync", book, "--store", store)
    shutil.rmtree(store)
    store.mkdir()

    assert (
        "less than last time"
        in examples_text(capsys, "sync", book, "--store", store, code=1)["cut"]
    )
    assert (
        examples_text(capsys, "sync", book, "--store", store, "--allow-less")["segments_out"] == 1
    )
    assert main(["sync", str(book), "--store", str(store)]) == 0
    assert "out: 0 entries" in capsys.readouterr().out


def test_demo_can_be_sent_from_any_tablet(
    switch: Switch, store: Path, demo_book: Path, tmp_path: Path, capsys: Captured
) -> None:
    """The demo's key is public, so any tablet may send the demo."""
    switch("one")
    book = tmp_path / "demo.book"
    shutil.copy(demo_book, book)
    assert examples_text(capsys, "sync", book, "--store", store)["is_whole"]
    assert examples_text(capsys, "tablets", book)["is_open"]


def test_name_of_a_tablet_is_shown_as_letters(
    switch: Switch, tmp_path: Path, capsys: Captured
) -> None:
    """A member's word can't clear somebody's terminal, nor add lines to the list."""
    a, code = tmp_path / "a.book", code_of("cd" * 16)
    switch("one")
    assert main(["plan", str(a), str(PLAN)]) == 0
    capsys.readouterr()
    assert main(["tablets", str(a), "--add", code, "--name", "cab\x1b[2J\nme: may write"]) == 0
    shown = capsys.readouterr().out

    assert "\x1b" not in shown
    assert len(shown.splitlines()) == 3


def test_joining_that_was_cut_goes_on_under_the_same_name(
    switch: Switch, store: Path, tmp_path: Path, capsys: Captured
) -> None:
    """The same command again: with a book that came to nothing, and with one that holds the job."""
    a, b = tmp_path / "a.book", tmp_path / "b.book"
    switch("one")
    assert main(["plan", str(a), str(PLAN)]) == 0
    job = examples_text(capsys, "sync", a, "--store", store)["job"]
    (segment,) = store.rglob("*.seg")
    whole = segment.read_bytes()
    segment.write_bytes(whole[:100])
    switch("two")
    join = ("sync", str(b), "--store", str(store), "--join", job)
    assert main(list(join)) == 2
    segment.write_bytes(whole)
    assert examples_text(capsys, *join)["new_entries"] > 0
    assert examples_text(capsys, *join)["is_whole"]
    assert raws(b) == raws(a)


def test_hand_over_taken_again_after_a_bad_one(
    switch: Switch, tmp_path: Path, capsys: Captured
) -> None:
    """The empty book that an altered file left is filled from the good one."""
    a, b, good = tmp_path / "a.book", tmp_path / "b.book", tmp_path / "good.crew"
    switch("one")
    assert main(["plan", str(a), str(PLAN)]) == 0
    examples_text(capsys, "handover", "make", a, "--out", good)
    data = bytearray(good.read_bytes())
    data[data.index(b".seg") + 60] ^= 1
    (tmp_path / "bad.crew").write_bytes(data)
    switch("two")
    assert main(["handover", "take", str(tmp_path / "bad.crew"), "--book", str(b)]) == 2
    assert examples_text(capsys, "handover", "take", good, "--book", b)["is_whole"]
    assert raws(b) == raws(a)


def test_hand_over_made_and_taken(switch: Switch, tmp_path: Path, capsys: Captured) -> None:
    """A whole job to a stranger, then news to a book that is there."""
    switch("one")
    a, b, file = tmp_path / "a.book", tmp_path / "b.book", tmp_path / "job.crew"
    assert main(["plan", str(a), str(PLAN)]) == 0
    made = examples_text(capsys, "handover", "make", a, "--out", file)
    switch("two")
    new = examples_text(capsys, "handover", "take", file, "--book", b)
    again = examples_text(capsys, "handover", "take", file, "--book", b)

    assert (made["segments"], new["new_entries"], again["new_entries"]) == (1, 11, 0)
    assert raws(a) == raws(b)


def test_an_empty_hand_over_is_a_failure(switch: Switch, tmp_path: Path, capsys: Captured) -> None:
    """A copy of a book, on a tablet without its keys: exit 1, no file, and the way on."""
    switch("one")
    book, copy, file = tmp_path / "a.book", tmp_path / "copy.book", tmp_path / "job.crew"
    assert main(["plan", str(book), str(PLAN)]) == 0
    shutil.copy(book, copy)
    switch("two")
    capsys.readouterr()

    assert main(["handover", "make", str(copy), "--out", str(file)]) == 1
    said = capsys.readouterr().err
    count = len(raws(book))

    assert f"Holds 0 of {count} entries of" in said
    assert "exchange first" in said
    assert examples_text(capsys, "handover", "make", copy, "--out", file, code=1)["entries"] == 0
    assert not file.exists()


def test_a_hand_over_that_brings_nothing(switch: Switch, tmp_path: Path, capsys: Captured) -> None:
    """Taken twice it held all already, exit 0; with nothing that opens in it, exit 2."""
    switch("one")
    book, file = tmp_path / "a.book", tmp_path / "job.crew"
    assert main(["plan", str(book), str(PLAN)]) == 0
    examples_text(capsys, "handover", "make", book, "--out", file)
    count = len(raws(book))

    assert main(["handover", "take", str(file), "--book", str(book)]) == 0
    assert f"held all {count} already" in capsys.readouterr().out
    assert examples_text(capsys, "handover", "take", file, "--book", book)["held_already"] == count

    hollow = tmp_path / "hollow.crew"
    with zipfile.ZipFile(file) as whole, zipfile.ZipFile(hollow, "w") as made:
        for name in whole.namelist():
            made.writestr(name, b"nothing")
    assert main(["handover", "take", str(hollow), "--book", str(book)]) == 2
    assert "holds no entries" in capsys.readouterr().err


def test_own_job_taken_anew_claims_no_new_identity(
    switch: Switch, tmp_path: Path, capsys: Captured
) -> None:
    """The tablet's code stays what it was, and nobody is told otherwise."""
    switch("one")
    book, file = tmp_path / "a.book", tmp_path / "job.crew"
    assert main(["plan", str(book), str(PLAN)]) == 0
    before = examples_text(capsys, "tablets")["this_tablet"]
    examples_text(capsys, "handover", "make", book, "--out", file)

    taken = examples_text(capsys, "handover", "take", file, "--book", tmp_path / "t.book")

    assert not taken["took_new_identity"]
    assert examples_text(capsys, "tablets")["this_tablet"] == before


@pytest.mark.parametrize(
    "words",
    [
        ("sync", "--store", "STORE"),
        ("sync", "nowhere.book", "--store", "STORE"),
        ("sync", "BOOK", "--store", "nonsense://x"),
        ("sync", "BOOK", "--store", "relative"),
        ("sync", "BOOK", "--store", "STORE", "--join", "job-0011223344556677"),
        ("sync", "new.book", "--store", "STORE", "--join", "../up"),
        ("sync", "/nowhere/new.book", "--store", "STORE", "--join", "job-0011223344556677"),
        ("sync", "BOOK", "--store", "STORE", "--photos", "huge"),
        ("handover", "make", "nowhere.book", "--out", "x.crew"),
        ("handover", "make", "BOOK", "--out", "BOOK"),
        ("handover", "make", "BOOK", "--out", "/nowhere/x.crew"),
        ("handover", "make", "BOOK", "--out", "x.crew", "--day", "soon"),
        ("handover", "take", "BOOK", "--book", "new.book"),
        ("handover", "take", "nowhere.crew", "--book", "BOOK"),
        ("tablets", "nowhere.book"),
    ],
)
def test_bad_input_is_told(
    store: Path, tmp_path: Path, capsys: Captured, words: tuple[str, ...]
) -> None:
    """A sentence and exit code 2, never a traceback."""
    book = tmp_path / "a.book"
    assert main(["plan", str(book), str(PLAN)]) == 0
    capsys.readouterr()
    named = {"BOOK": str(book), "STORE": str(store)}
    try:
        code = main([named.get(word, word) for word in words])
    except SystemExit as left:
        code = int(str(left.code))

    assert code == 2
    assert capsys.readouterr().err.strip().endswith((".", "]", ")"))
