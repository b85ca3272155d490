"""Every store passes the same tests unchanged, each server a real one on loopback."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.sync.stores.contract import Place, StoreContract
from tests.sync.stores.places import dav_place, folder_place, objects_place, ssh_place
from tests.sync.stores.servers.dav import DavServer
from tests.sync.stores.servers.ssh import SshServer
from tests.sync.stores.servers.swift import SwiftServer


class TestFolder(StoreContract):
    """A folder of this machine."""

    @pytest.fixture
    def place(self, tmp_path: Path) -> Place:
        """A fresh folder."""
        return folder_place(tmp_path)


class TestExfat(StoreContract):
    """A folder on a stick with exFAT, where A and a are one name."""

    @pytest.fixture
    def place(self, exfat_stick: Path) -> Place:
        """A fresh folder on the stick."""
        return folder_place(exfat_stick)


class TestSftp(StoreContract):
    """OpenSSH's server."""

    @pytest.fixture
    def place(self, ssh_server: SshServer) -> Place:
        """A fresh folder on the server."""
        return ssh_place(ssh_server)


class TestApache(StoreContract):
    """Apache's WebDAV server, over TLS with a certificate that the tablet was told to trust."""

    @pytest.fixture
    def place(self, apache: DavServer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Place:
        """A fresh folder on the server."""
        monkeypatch.setenv("SSL_CERT_FILE", str(apache.folder / "certificate.pem"))
        return dav_place(apache, tmp_path)


class TestNginx(StoreContract):
    """The WebDAV server of nginx, which ignores conditions on an upload."""

    @pytest.fixture
    def place(self, nginx: DavServer, tmp_path: Path) -> Place:
        """A fresh folder on the server."""
        return dav_place(nginx, tmp_path)


class TestWsgidav(StoreContract):
    """WsgiDAV, which keeps half of a cut upload."""

    @pytest.fixture
    def place(self, wsgidav: DavServer, tmp_path: Path) -> Place:
        """A fresh folder on the server."""
        return dav_place(wsgidav, tmp_path)


class TestSwift(StoreContract):
    """OpenStack Swift as S3."""

    @pytest.fixture
    def place(self, swift_server: SwiftServer, tmp_path: Path) -> Place:
        """A fresh prefix in the bucket."""
        return objects_place(swift_server, tmp_path)
