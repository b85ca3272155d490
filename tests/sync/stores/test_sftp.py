"""What is particular to SFTP: the login's own folder, and bytes made durable before their name."""

from __future__ import annotations

import getpass

import pytest
from paramiko.sftp_client import SFTPClient

from sync.stores.opening import open_store
from tests.sync.stores.places import ssh_place
from tests.sync.stores.servers.ssh import SshServer


def test_place_below_the_logins_own_folder(ssh_server: SshServer) -> None:
    """A place that starts with ~ lies where the login starts, and not at the root."""
    where = f"sftp://{getpass.getuser()}@127.0.0.1:{ssh_server.server.port}/~/own/turf"
    with open_store(where, ssh_server.home) as store:
        store.write("j/a", b"sand")

        assert [one.name for one in store.list("")] == ["j/a"]
    assert (ssh_server.root / "own" / "turf" / "j" / "a").read_bytes() == b"sand"


def test_bytes_are_durable_before_their_name(
    ssh_server: SshServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The server is asked to sync the file and says yes before it is asked to rename it."""
    steps: list[str] = []
    request, rename = SFTPClient._request, SFTPClient.rename

    def told_request(self: SFTPClient, kind: int, *args: object) -> object:
        answer = request(self, kind, *args)
        if args and args[0] == "fsync@openssh.com":
            steps.append("synced")
        return answer

    def told_rename(self: SFTPClient, fresh: str, place: str) -> None:
        steps.append("named")
        rename(self, fresh, place)

    monkeypatch.setattr(SFTPClient, "_request", told_request)
    monkeypatch.setattr(SFTPClient, "rename", told_rename)
    with ssh_place(ssh_server).opened() as store:
        store.write("j/a", b"sand")

    assert steps == ["synced", "named"]
