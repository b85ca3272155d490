"""Answers of web servers that refuse, overflow or make no sense: stand-ins on loopback."""

from __future__ import annotations

from contextlib import nullcontext
from pathlib import Path

import pytest

import sync.stores.webdav
from sync.stores.errors import StoreError, StoreRefusedError, StoreUnreachableError
from sync.stores.opening import open_store
from sync.stores.secrets import PASSWORD_NAMED, USER_NAMED
from tests.sync.stores.servers.scripted import scripted

MISSING = b"<Error><Code>NoSuchKey</Code><Message>none</Message></Error>"
PROPS = (
    b'<multistatus xmlns="DAV:"><response><href>%s</href><propstat><prop><resourcetype/>'
    b"<getcontentlength>%d</getcontentlength></prop></propstat></response></multistatus>"
)
LAUGHS = b"""<?xml version="1.0"?><!DOCTYPE a [<!ENTITY x0 "ha">%s]><a>&x30;</a>""" % b"".join(
    b'<!ENTITY x%d "&x%d;&x%d;">' % (n, n - 1, n - 1) for n in range(1, 31)
)


@pytest.fixture(autouse=True)
def _password(monkeypatch: pytest.MonkeyPatch) -> None:
    """A password that no sentence may show."""
    monkeypatch.setenv(USER_NAMED, "crew")
    monkeypatch.setenv(PASSWORD_NAMED, "sharp-shovel-7")


@pytest.mark.parametrize(
    ("status", "error", "words"),
    [
        (401, StoreRefusedError, "See to the user and password"),
        (403, StoreRefusedError, "does not let this user in"),
        (413, StoreRefusedError, "it is full"),
        (429, StoreUnreachableError, "busy or ill"),
        (501, StoreRefusedError, "its answer is 501"),
        (503, StoreUnreachableError, "busy or ill"),
        (507, StoreRefusedError, "it is full"),
    ],
)
@pytest.mark.parametrize(
    "text", ["dav://127.0.0.1:{}/x", "s3://turf/x?endpoint=http://127.0.0.1:{}"]
)
def test_refusal_is_a_sentence(
    text: str, status: int, error: type[StoreError], words: str, tmp_path: Path
) -> None:
    """A server's no to an upload is told apart by what somebody can do about it."""

    def answer(method: str, path: str) -> tuple[int, bytes]:
        return (status, b"") if method in {"PUT", "MKCOL"} else (404, MISSING)

    with (
        scripted(answer) as server,
        open_store(text.format(server.port), tmp_path) as store,
        pytest.raises(error, match=words) as met,
    ):
        store.write("j/a", b"sand")
    assert "shovel" not in str(met.value) + repr(met.value.context)
    assert [method in {"PUT", "MKCOL"} for method, _, _ in server.asked].count(True) == 1


@pytest.mark.parametrize(
    ("status", "body"),
    [
        (200, b"<html>Please log in</html>"),
        (207, b""),
        (207, b"not xml"),
        (207, b'<multistatus xmlns="DAV:"><response/></multistatus>'),
        (207, (PROPS % (b"/x/j/a", 1)).replace(b">1<", b">many<")),
        (207, LAUGHS),
        (302, b""),
        (999, b""),
    ],
)
def test_nonsense_over_webdav_is_a_sentence(status: int, body: bytes, tmp_path: Path) -> None:
    """What is no answer of a WebDAV server ends in a sentence, whichever verb met it."""
    with (
        scripted(lambda method, path: (status, body)) as server,
        open_store(f"dav://127.0.0.1:{server.port}/x", tmp_path) as store,
    ):
        for verb in (
            lambda: store.list("j"),
            lambda: store.read("j/a", 9),
            lambda: store.write("j/a", b"x"),
        ):
            with pytest.raises(StoreError):
                verb()


def test_endless_list_is_cut_off(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A list that goes on and on is given up before it fills the memory."""
    monkeypatch.setattr(sync.stores.webdav, "MOST_TOLD", 100_000)
    long = PROPS % (b"/x/j", 1) + b" " * 200_000  # would be read, were it not for its length
    with (
        scripted(lambda method, path: (207, long)) as server,
        open_store(f"dav://127.0.0.1:{server.port}/x", tmp_path) as store,
        pytest.raises(StoreRefusedError, match="what no WebDAV server would"),
    ):
        store.list("")


@pytest.mark.parametrize("status", [405, 501, 502])
def test_server_that_can_not_move_gets_the_name_at_once(status: int, tmp_path: Path) -> None:
    """Without renaming, the upload goes to the name itself and the temporary one is taken away."""
    sizes: dict[str, int] = {}

    def answer(method: str, path: str) -> tuple[int, bytes]:
        if method == "PUT":
            sizes[path] = 4
        if method == "PROPFIND" and path in sizes:
            return 207, PROPS % (path.encode(), sizes[path])
        if method == "GET" and path in sizes:
            return 200, b"sand"
        return {"PUT": 201, "MKCOL": 201, "MOVE": status, "DELETE": 204}.get(method, 404), b""

    with (
        scripted(answer) as server,
        open_store(f"dav://127.0.0.1:{server.port}/x", tmp_path) as store,
    ):
        store.write("j/a", b"sand")
    came = [(method, path) for method, path, _ in server.asked]
    fresh = next(path for method, path in came if method == "PUT")

    assert ".tmp-" in fresh
    assert ("PUT", "/x/j/a") in came
    assert ("DELETE", fresh) in came
    assert not [path for method, path in came if method == "DELETE" and ".tmp-" not in path]


def test_no_condition_is_sent_to_an_object_store(tmp_path: Path) -> None:
    """Some refuse If-None-Match (501) and some ignore it, so nothing may hang on it."""
    kept: dict[str, bytes] = {}

    def answer(method: str, path: str) -> tuple[int, bytes]:
        if method == "PUT":
            kept[path] = b"sand"
            return 200, b""
        return (200, kept[path]) if path in kept else (404, MISSING)

    with scripted(answer) as server:
        text = f"s3://turf/x?endpoint=http://127.0.0.1:{server.port}"
        with open_store(text, tmp_path) as store:
            store.write("j/a", b"sand")
    (put,) = [headers for method, _, headers in server.asked if method == "PUT"]

    assert kept == {"/turf/x/j/a": b"sand"}
    assert not [name for name in put if name.lower().startswith("if-")]
    digest = {name.lower(): value for name, value in put.items()}["x-amz-content-sha256"]
    assert len(digest) == 64, "the server is not told what it should have received"


@pytest.mark.parametrize(
    ("moves", "is_there", "error"),
    [
        ((500, 201), False, None),  # it stumbled, and was asked again
        ((500,), True, None),  # another tablet gave the name with the same bytes meanwhile
        ((500, 500), False, StoreUnreachableError),
        ((503,), False, StoreUnreachableError),  # busy is not asked again at once
    ],
)
def test_server_that_stumbles_over_a_name_is_asked_once_more(
    tmp_path: Path, moves: tuple[int, ...], is_there: bool, error: type[StoreError] | None
) -> None:
    """Two tablets give one name at one moment: an answer of 500 is looked into, not believed."""
    left, data = list(moves), b"sand"
    named = []

    def answer(method: str, path: str) -> tuple[int, bytes]:
        if method == "MOVE":
            status = left.pop(0)
            if is_there or status == 201:
                named.append(path)
            return status, b""
        if method in {"PUT", "MKCOL", "DELETE"}:
            return 201, b""
        if method == "GET":
            return (200, data) if named else (404, b"")
        is_fresh = not path.endswith("/j/a")
        if path.endswith("/x/j") or path.endswith("/x") or not (is_fresh or named):
            return 404, b""
        return 207, PROPS % (path.encode(), len(data))

    with (
        scripted(answer) as server,
        open_store(f"dav://127.0.0.1:{server.port}/x", tmp_path) as store,
        pytest.raises(error, match="busy or ill") if error else nullcontext(),
    ):
        store.write("j/a", data)
    assert left == []
    assert [method for method, _, _ in server.asked].count("MOVE") == len(moves)
