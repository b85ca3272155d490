"""Three WebDAV servers that differ in what they get wrong: Apache, nginx and WsgiDAV."""

from __future__ import annotations

import base64
import contextlib
import datetime
import hashlib
import ipaddress
import os
import sys
from collections.abc import Iterator
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec

from tests.sync.stores.servers.process import Server, free_port, running, server_folder

USER, PASSWORD = "crew", "sharp-shovel-7"

_WSGIDAV = """
import sys
from cheroot.wsgi import Server
from wsgidav.wsgidav_app import WsgiDAVApp

port, root, user, password = sys.argv[1:]
app = WsgiDAVApp({
    "provider_mapping": {"/": root},
    "simple_dc": {"user_mapping": {"*": {user: {"password": password}}}},
    "http_authenticator": {"accept_basic": True, "accept_digest": False},
    "verbose": 1,
})
Server(("127.0.0.1", int(port)), app).safe_start()
"""


class DavServer:
    """A running WebDAV server with one user; what it stores lies in ``root``."""

    def __init__(self, folder: Path, scheme: str = "dav") -> None:
        self.folder = folder
        self.scheme = scheme
        self.root = folder / "files"
        self.root.mkdir(mode=0o777)
        self.root.chmod(0o777)
        self.port = free_port()
        hashed = base64.b64encode(hashlib.sha1(PASSWORD.encode()).digest()).decode()
        (folder / "users").write_text(f"{USER}:{{SHA}}{hashed}\n", encoding="ascii")
        self.server: Server

    def where(self, path: str) -> str:
        """Return the text that names a folder of the server."""
        return f"{self.scheme}://{USER}@127.0.0.1:{self.port}/{path}"


@contextlib.contextmanager
def apache() -> Iterator[DavServer]:
    """Apache with mod_dav, over TLS with a certificate that nobody signed."""
    with server_folder() as folder:
        dav = DavServer(folder, "davs")
        make_certificate(folder)
        config = folder / "apache.conf"
        config.write_text(_apache_config(folder, dav.port), encoding="ascii")
        command = ["/usr/sbin/apache2", "-D", "FOREGROUND", "-f", str(config)]
        dav.server = Server(command, dav.port, folder / "log")
        with running(dav.server):
            yield dav


@contextlib.contextmanager
def nginx() -> Iterator[DavServer]:
    """Nginx with its two WebDAV modules; it ignores If-None-Match on an upload."""
    with server_folder() as folder:
        dav = DavServer(folder)
        config = folder / "nginx.conf"
        config.write_text(_nginx_config(folder, dav.port), encoding="ascii")
        command = ["/usr/sbin/nginx", "-e", f"{folder}/error.log", "-c", str(config)]
        dav.server = Server(command, dav.port, folder / "log")
        with running(dav.server):
            yield dav


@contextlib.contextmanager
def wsgidav() -> Iterator[DavServer]:
    """WsgiDAV; a cut upload stays half under its name."""
    with server_folder() as folder:
        dav = DavServer(folder)
        command = [sys.executable, "-c", _WSGIDAV, str(dav.port), str(dav.root), USER, PASSWORD]
        dav.server = Server(command, dav.port, folder / "log")
        with running(dav.server):
            yield dav


def make_certificate(folder: Path) -> None:
    """Write a certificate for 127.0.0.1 that signs itself, and its key."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(x509.NameOID.COMMON_NAME, "127.0.0.1")])
    now = datetime.datetime.now(datetime.UTC)
    address = x509.IPAddress(ipaddress.ip_address("127.0.0.1"))
    certificate = (
        x509.CertificateBuilder(name, name, key.public_key(), x509.random_serial_number())
        .not_valid_before(now - datetime.timedelta(days=1))
        .not_valid_after(now + datetime.timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([address]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .sign(key, hashes.SHA256())
    )
    pem = serialization.Encoding.PEM
    plain = serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    (folder / "certificate.pem").write_bytes(certificate.public_bytes(pem))
    (folder / "key.pem").write_bytes(key.private_bytes(pem, *plain))


def _apache_config(folder: Path, port: int) -> str:
    """Return the settings of an Apache that does nothing else."""
    wanted = "mpm_event authn_core authn_file authz_core authz_user auth_basic dav dav_fs ssl"
    loads = "\n".join(
        f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so"
        for name in wanted.split()
    )
    user = "User www-data\nGroup www-data" if os.getuid() == 0 else ""
    return f"""
ServerRoot {folder}
ServerName 127.0.0.1
DefaultRuntimeDir {folder}
PidFile {folder}/pid
Listen 127.0.0.1:{port}
ErrorLog {folder}/error.log
{loads}
{user}
Mutex sem
SSLEngine on
SSLCertificateFile {folder}/certificate.pem
SSLCertificateKeyFile {folder}/key.pem
DocumentRoot {folder}/files
DavLockDB {folder}/files/.locks
<Directory {folder}/files>
  Dav On
  AuthType Basic
  AuthName turf
  AuthUserFile {folder}/users
  Require valid-user
</Directory>
"""


def _nginx_config(folder: Path, port: int) -> str:
    """Return the settings of an nginx that does nothing else."""
    temporary = "\n".join(
        f"  {kind}_temp_path {folder}/{kind};"
        for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi")
    )
    user = "user root;" if os.getuid() == 0 else ""
    return f"""
load_module /usr/lib/nginx/modules/ngx_http_dav_ext_module.so;
daemon off;
{user}
pid {folder}/pid;
events {{ }}
http {{
  access_log off;
{temporary}
  client_max_body_size 100m;
  dav_ext_lock_zone zone=locks:1m;
  server {{
    listen 127.0.0.1:{port};
    root {folder}/files;
    auth_basic turf;
    auth_basic_user_file {folder}/users;
    dav_methods PUT DELETE MKCOL COPY MOVE;
    dav_ext_methods PROPFIND OPTIONS;
  }}
}}
"""
