"""Servers with a shared folder, as a house runs them: ours, and Debian's nginx and Apache with our settings."""

from __future__ import annotations

import base64
import hashlib
import shutil
import socket
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

import pytest

from site_src.hosts import PASSWORDS, PLACE, SHARED, apache, nginx
from site_src.policy import read_headers
from site_src.server import Server
from tests.conftest import served

USER, PASSWORD = "house", "barley"
MODULES = (
    *("mpm_event", "authz_core", "dir", "mime", "headers", "rewrite"),
    *("dav", "dav_fs", "alias", "autoindex", "auth_basic", "authn_core", "authn_file", "authz_user"),
)


class Shared(NamedTuple):
    """A running server and its folder."""

    address: str
    folder: Path
    has_password: bool


def name_of(text: bytes, device: str = "aaaaaaaa", number: int = 1) -> str:
    return f"{device}-{number:06d}-{hashlib.sha256(text).hexdigest()}.json"


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


def program(name: str) -> str:
    path = shutil.which(name, path="/usr/sbin:/usr/bin:/usr/local/sbin")
    if not path:
        pytest.skip(f"Debian's {name} is not installed")
    return path


def _put_down(settings: str, site: Path, top: Path) -> str:
    """Fill in folder and password file; return the settings."""
    secret = base64.b64encode(hashlib.sha1(PASSWORD.encode()).digest()).decode()
    (top / "passwords").write_text(f"{USER}:{{SHA}}{secret}\n")
    (top / "shared").mkdir(exist_ok=True)
    filled = settings.replace(SHARED, str(top / "shared")).replace(PASSWORDS, str(top / "passwords"))
    return filled.replace(PLACE, str(site))


@contextmanager
def _running(command: list[str], port: int, log: Path) -> Iterator[str]:
    with subprocess.Popen(command) as process:
        try:
            for _ in range(200):
                with socket.socket() as one:
                    if one.connect_ex(("127.0.0.1", port)) == 0:
                        break
                if process.poll() is not None:
                    pytest.fail(f"the server did not start: {log.read_text() if log.exists() else ''}")
                time.sleep(0.05)
            yield f"http://127.0.0.1:{port}/"
        finally:
            process.terminate()


@contextmanager
def nginx_running(site: Path, top: Path) -> Iterator[Shared]:
    port = free_port()
    settings = _put_down(nginx(read_headers(site), "/", shared=True), site, top)
    settings = settings.replace("listen 80;", f"listen 127.0.0.1:{port};")
    (top / "nginx.conf").write_text(
        f"""daemon off; pid {top}/pid; error_log {top}/error.log; worker_processes 1; user root;
        events {{}} http {{ access_log off;
        client_body_temp_path {top}/1; proxy_temp_path {top}/2; fastcgi_temp_path {top}/3;
        uwsgi_temp_path {top}/4; scgi_temp_path {top}/5;
        {settings} }}"""
    )
    with _running(
        [program("nginx"), "-c", str(top / "nginx.conf"), "-p", str(top)], port, top / "error.log"
    ) as address:
        yield Shared(address, top / "shared", has_password=True)


@contextmanager
def apache_running(site: Path, top: Path) -> Iterator[Shared]:
    port = free_port()
    settings = _put_down(apache(read_headers(site), "/", shared=True), site, top)
    modules = "".join(f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so\n" for name in MODULES)
    (top / "apache.conf").write_text(
        f"""ServerRoot {top}
        ServerName 127.0.0.1
        Listen 127.0.0.1:{port}
        PidFile {top}/pid
        ErrorLog {top}/error.log
        {modules}
        DavLockDB {top}/shared/.lock
        TypesConfig /etc/mime.types
        DocumentRoot {site}
        {settings}"""
    )
    command = [program("apache2"), "-f", str(top / "apache.conf"), "-DFOREGROUND"]
    with _running(command, port, top / "error.log") as address:
        yield Shared(address, top / "shared", has_password=True)


@contextmanager
def ours_running(site: Path, top: Path) -> Iterator[Shared]:
    (top / "shared").mkdir()
    with served(Server(site, shared=top / "shared")) as address:
        yield Shared(address, top / "shared", has_password=False)


RUN = {"nginx": nginx_running, "apache2": apache_running, "ours": ours_running}
