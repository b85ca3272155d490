"""Servers that go away in the middle: a sentence, no half file, and the same again works."""

from __future__ import annotations

import contextlib
import signal
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from sync.stores.contract import Store
from sync.stores.errors import StoreError, StoreUnreachableError
from sync.stores.opening import open_store
from tests.sync.stores.places import FilesPlace, dav_place, objects_place, ssh_place
from tests.sync.stores.servers.dav import DavServer
from tests.sync.stores.servers.dav import wsgidav as wsgidav_server
from tests.sync.stores.servers.process import Server
from tests.sync.stores.servers.ssh import SshServer
from tests.sync.stores.servers.ssh import ssh_server as own_ssh_server
from tests.sync.stores.servers.swift import SwiftServer

LONG = bytes(range(251)) * 32_000  # some 8 MB: an upload that can be caught in the middle


def kill_amid(server: Server, root: Path, write: Callable[[], None]) -> list[StoreError]:
    """Write in a thread, kill the server once part of it arrived; return what the writer met."""
    met: list[StoreError] = []

    def run() -> None:
        try:
            write()
        except StoreError as error:
            met.append(error)

    writer = threading.Thread(target=run)
    writer.start()
    while writer.is_alive() and not any(p.stat().st_size for p in root.rglob(".tmp-*")):
        time.sleep(0.002)
    server.kill()
    writer.join(60)
    return met


def check_cut_upload(place: FilesPlace, server: Server) -> None:
    """Cut an upload; the name stays free, and after the server's return the same call works."""
    with place.opened() as store:
        store.write("j/first", b"x")
        (met,) = kill_amid(server, place.root, lambda: store.write("j/long", LONG))
        assert isinstance(met, StoreUnreachableError)
        assert "Nothing is lost" in str(met)
        left = place.names()
        assert "j/long" not in left
        assert any(".tmp-" in name for name in left), "the cut came too late to show anything"

        server.start()
        assert [one.name for one in store.list("")] == ["j/first"]
        store.write("j/long", LONG)
        assert store.read("j/long", len(LONG)) == LONG


def test_ssh_server_killed_amid_an_upload() -> None:
    """What sshd had of an upload when it was killed lies under no name of a file."""
    with own_ssh_server() as ssh:
        check_cut_upload(ssh_place(ssh), ssh.server)


def test_wsgidav_killed_amid_an_upload(tmp_path: Path) -> None:
    """Nor does what WsgiDAV had, which would have kept it under the name it was sent to."""
    with wsgidav_server() as dav:
        check_cut_upload(dav_place(dav, tmp_path), dav.server)


def check_away_and_back(store: Store, server: Server) -> None:
    """Each verb says that nothing answers while a server is away, and works when it is back."""
    store.write("j/a", b"x")
    server.kill()
    try:
        for verb in (
            lambda: store.list("j"),
            lambda: store.read("j/a", 9),
            lambda: store.write("j/b", b"y"),
        ):
            with pytest.raises(StoreUnreachableError, match="Try again when the store is there"):
                verb()
    finally:
        server.start()
    store.write("j/b", b"y")

    assert [one.name for one in store.list("j")] == ["j/a", "j/b"]


def test_ssh_server_away_and_back(ssh_server: SshServer) -> None:
    """An open store finds its way back to an SSH server that was restarted."""
    with ssh_place(ssh_server).opened() as store:
        check_away_and_back(store, ssh_server.server)


def test_nginx_away_and_back(nginx: DavServer, tmp_path: Path) -> None:
    """An open store finds its way back to a WebDAV server that was restarted."""
    with dav_place(nginx, tmp_path).opened() as store:
        check_away_and_back(store, nginx.server)


def test_swift_away_and_back(swift_server: SwiftServer, tmp_path: Path) -> None:
    """An open store finds its way back to an object store whose front was restarted."""
    with objects_place(swift_server, tmp_path).opened() as store:
        check_away_and_back(store, swift_server.proxy)


@contextlib.contextmanager
def silent(server: Server) -> Iterator[None]:
    """Stop a server without ending it; it answers again long after our patience is over."""
    again = threading.Timer(12, server.signal, [signal.SIGCONT])
    server.signal(signal.SIGSTOP)
    again.start()
    try:
        yield
    finally:
        again.cancel()
        server.signal(signal.SIGCONT)


def test_ssh_server_that_falls_silent(ssh_server: SshServer) -> None:
    """A server that stops answering is not waited for until it does."""
    place = ssh_place(ssh_server)
    with open_store(place.where, place.home, patience_s=1.0) as store:
        store.write("j/a", b"x")
        with (
            silent(ssh_server.server),
            pytest.raises(StoreUnreachableError, match="no answer came in time"),
        ):
            store.read("j/a", 9)

        assert store.read("j/a", 9) == b"x"


def test_dav_server_that_falls_silent(nginx: DavServer, tmp_path: Path) -> None:
    """Nor is a WebDAV server."""
    place = dav_place(nginx, tmp_path)
    with open_store(place.where, place.home, patience_s=1.0) as store:
        with (
            silent(nginx.server),
            pytest.raises(StoreUnreachableError, match="no answer came in time"),
        ):
            store.list("")

        assert store.list("") == []


def test_object_store_that_falls_silent(swift_server: SwiftServer, tmp_path: Path) -> None:
    """Nor is an object store."""
    place = objects_place(swift_server, tmp_path)
    with (
        open_store(place.where, place.home, patience_s=1.0) as store,
        silent(swift_server.proxy),
        pytest.raises(StoreUnreachableError, match="no answer came in time"),
    ):
        store.list("")
