"""Other bytes that take a name after we looked stay, where the server can rename."""

from __future__ import annotations

from pathlib import Path

import pytest

from sync.stores.address import parse_store_address
from sync.stores.secrets import find_secret
from sync.stores.sftp import SftpClient
from sync.stores.webdav import WebdavClient
from tests.sync.stores.places import FilesPlace, dav_place, ssh_place
from tests.sync.stores.servers.dav import DavServer
from tests.sync.stores.servers.ssh import SshServer


def way_of(place: FilesPlace) -> SftpClient | WebdavClient:
    """Return the way beneath a store on a server."""
    where = parse_store_address(place.where)
    if where.scheme == "sftp":
        return SftpClient(where, place.home, None, 20.0)
    return WebdavClient(where, find_secret(where, place.home), 20.0)


def check_it_stays(place: FilesPlace) -> None:
    """Upload to a name that is taken, as if it had been free a moment ago; then replace a piece."""
    place.plant("j/a", b"other")
    way = way_of(place)
    try:
        way.put("j/a", b"sand", replaces=False)
        assert way.fetch("j/a", 9) == b"other"
        assert place.names() == {"j/a"}
        way.put("j/a", b"other and more", replaces=True)
        assert way.fetch("j/a", 99) == b"other and more"
        assert place.names() == {"j/a"}
    finally:
        way.disconnect()


def test_it_stays_over_ssh(ssh_server: SshServer) -> None:
    """A plain SFTP rename refuses a name that is taken."""
    check_it_stays(ssh_place(ssh_server))


@pytest.mark.parametrize("name", ["apache", "nginx", "wsgidav"])
def test_it_stays_over_webdav(
    name: str, request: pytest.FixtureRequest, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A move that may not overwrite does not, on any of the three."""
    dav: DavServer = request.getfixturevalue(name)
    if dav.scheme == "davs":
        monkeypatch.setenv("SSL_CERT_FILE", str(dav.folder / "certificate.pem"))
    check_it_stays(dav_place(dav, tmp_path))
