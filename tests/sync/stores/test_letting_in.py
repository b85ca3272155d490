"""Who lets us in, whom we believe, and that no sentence shows what proves it."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from sync.stores.address import parse_store_address
from sync.stores.errors import (
    HostChangedError,
    HostUnknownError,
    StoreRefusedError,
    StoreUnreachableError,
)
from sync.stores.opening import open_store
from sync.stores.secrets import Secret, keep_secret
from sync.stores.ssh_hosts import accept_host
from tests.sync.stores.servers.dav import DavServer
from tests.sync.stores.servers.process import free_port
from tests.sync.stores.servers.ssh import SshServer, make_key
from tests.sync.stores.servers.swift import USER, SwiftServer

WRONG = "not-the-password-99"


@pytest.fixture
def stranger(ssh_server: SshServer, tmp_path: Path) -> Path:
    """The folder of a tablet that has the right key but has never met the server."""
    home = tmp_path / "stranger"
    home.mkdir()
    key = home / "store-key"
    key.write_bytes((ssh_server.home / "store-key").read_bytes())
    key.chmod(0o600)
    return home


def test_unknown_ssh_server_is_refused_with_its_fingerprint(
    ssh_server: SshServer, stranger: Path
) -> None:
    """The fingerprint is the one ssh-keygen reads off the server's key; accepting it lets in."""
    with open_store(ssh_server.where("x"), stranger) as store:
        with pytest.raises(HostUnknownError) as met:
            store.list("")
        command = ["ssh-keygen", "-lf", str(ssh_server.host_key.with_suffix(".pub"))]
        read_out = subprocess.run(command, capture_output=True, text=True, check=True).stdout
        assert met.value.context["fingerprint"] == read_out.split()[1]
        assert str(met.value.context["line"]) in str(met.value)

        accept_host(met.value)
        assert (stranger / "known_hosts").read_text("ascii") == ssh_server.known
        assert store.list("") == []


def test_changed_ssh_server_is_refused(
    ssh_server: SshServer, stranger: Path, tmp_path: Path
) -> None:
    """A server with another key than the accepted one may be another machine."""
    make_key(tmp_path / "other")
    kind, other = (tmp_path / "other.pub").read_text("ascii").split()[:2]
    host = ssh_server.known.split()[0]
    (stranger / "known_hosts").write_text(f"{host} {kind} {other}\n", encoding="ascii")
    with (
        open_store(ssh_server.where("x"), stranger) as store,
        pytest.raises(HostChangedError, match="Another machine may be answering"),
    ):
        store.list("")


def test_ssh_key_that_opens_nothing_is_refused(
    ssh_server: SshServer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A tablet whose key the server does not know is told so, and not that nothing answers."""
    monkeypatch.delenv("SSH_AUTH_SOCK", raising=False)
    monkeypatch.setenv("HOME", str(tmp_path))
    make_key(tmp_path / "store-key")
    (tmp_path / "known_hosts").write_text(ssh_server.known, encoding="ascii")
    with (
        open_store(ssh_server.where("x"), tmp_path) as store,
        pytest.raises(StoreRefusedError, match="does not let this user in"),
    ):
        store.list("")


def test_ssh_key_that_others_may_read_is_not_used(ssh_server: SshServer, stranger: Path) -> None:
    """A private key open to others is refused before anything is sent."""
    (stranger / "store-key").chmod(0o644)
    with (
        open_store(ssh_server.where("x"), stranger) as store,
        pytest.raises(StoreRefusedError, match="chmod 600"),
    ):
        store.list("")


@pytest.mark.parametrize("name", ["nginx", "wsgidav"])
def test_wrong_password_is_refused(
    name: str, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    """A WebDAV server that lets us not in is told apart from one that is away."""
    dav: DavServer = request.getfixturevalue(name)
    keep_secret(parse_store_address(dav.where("x")), tmp_path, Secret("crew", WRONG))
    with (
        open_store(dav.where("x"), tmp_path) as store,
        pytest.raises(StoreRefusedError, match="See to the user and password") as met,
    ):
        store.write("j/a", b"x")
    assert WRONG not in str(met.value) + repr(met.value.context)


def test_password_from_the_surroundings(
    nginx: DavServer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where no file gives a password, the environment may, for the user of the address."""
    monkeypatch.setenv("CREWAPP_STORE_PASSWORD", "sharp-shovel-7")
    with open_store(nginx.where("env"), tmp_path) as store:
        store.write("j/a", b"x")

        assert store.read("j/a", 1) == b"x"


def test_wrong_key_of_a_bucket_is_refused(swift_server: SwiftServer, tmp_path: Path) -> None:
    """So is an object store's, and its sentence shows neither the right nor the wrong one."""
    keep_secret(parse_store_address(swift_server.where("x")), tmp_path, Secret(USER, WRONG))
    with (
        open_store(swift_server.where("x"), tmp_path) as store,
        pytest.raises(StoreRefusedError, match="does not let this user in") as met,
    ):
        store.list("")
    assert WRONG not in str(met.value) + repr(met.value.context)


def test_missing_bucket_is_no_empty_store(swift_server: SwiftServer, tmp_path: Path) -> None:
    """A misspelt bucket is told by each verb, and not taken for a store that lost its files."""
    text = swift_server.where("x", bucket="misspelt")
    keep_secret(parse_store_address(text), tmp_path, Secret(USER, "sharp-shovel-7"))
    with open_store(text, tmp_path) as store:
        for verb in (
            lambda: store.list(""),
            lambda: store.read("j/a", 1),
            lambda: store.write("j/a", b"x"),
        ):
            with pytest.raises(StoreRefusedError, match="no bucket of that name"):
                verb()


@pytest.mark.parametrize(
    "text", ["davs://crew@127.0.0.1:{}/x", "s3://turf/x?endpoint=https://127.0.0.1:{}"]
)
def test_certificate_that_nobody_vouches_for_is_refused(
    text: str, apache: DavServer, tmp_path: Path
) -> None:
    """A server whose certificate is not trusted gets neither password nor file."""
    where = text.format(apache.port)
    keep_secret(parse_store_address(where), tmp_path, Secret("crew", "sharp-shovel-7"))
    with (
        open_store(where, tmp_path) as store,
        pytest.raises(StoreRefusedError, match="not one that this device trusts"),
    ):
        store.list("")


@pytest.mark.parametrize("text", ["sftp://crew@127.0.0.1:{}/x", "dav://127.0.0.1:{}/x"])
def test_nothing_there_is_told(text: str, tmp_path: Path) -> None:
    """A port on which nothing listens, and a host whose name nobody knows."""
    for where in (text.format(free_port()), re.sub(r"dav:|127.0.0.1:\{\}", _unknown, text)):
        with open_store(where, tmp_path) as store, pytest.raises(StoreUnreachableError):
            store.list("")


def _unknown(met: re.Match[str]) -> str:
    """Return what makes an address one of a host that has no number."""
    return {"dav:": "davs:"}.get(met.group(), "no-such-host.invalid")
