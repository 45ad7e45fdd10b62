"""Our server: types, compression, caching, policy, and what it must not give away."""

from __future__ import annotations

import gzip
import http.client
import socket
from collections.abc import Iterator
from pathlib import Path

import brotli
import pytest

from site_src.policy import policy, write_headers
from site_src.server import Server
from tests.conftest import served

# The types of the IANA register, and of RFC 9239 for scripts; the two archives are zips.
TYPES = {
    "a.mjs": "text/javascript; charset=utf-8",
    "a.js": "text/javascript; charset=utf-8",
    "a.css": "text/css; charset=utf-8",
    "a.html": "text/html; charset=utf-8",
    "a.wasm": "application/wasm",
    "a.zip": "application/zip",
    "a.whl": "application/zip",
    "a.json": "application/json",
    "a.svg": "image/svg+xml",
    "a.webmanifest": "application/manifest+json",
    "a.unheard": "application/octet-stream",
}
LONG = "barley " * 1000


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    top = tmp_path_factory.mktemp("server")
    (top / "secret.txt").write_text("secret")
    site = top / "site"
    (site / "sub").mkdir(parents=True)
    (site / "runtime/0123456789ab").mkdir(parents=True)
    for name in (
        *TYPES,
        "index.html",
        "sub/index.html",
        "404.html",
        "b.0123456789ab.mjs",
        "runtime/0123456789ab/x.wasm",
    ):
        (site / name).write_text(f"<p>{name} {LONG}")
        (site / f"{name}.br").write_bytes(brotli.compress((site / name).read_bytes()))
        (site / f"{name}.gz").write_bytes(gzip.compress((site / name).read_bytes()))
    (site / "plain.txt").write_text("short")
    (site / "out.txt").symlink_to(top / "secret.txt")
    write_headers(site, policy([]))
    return site


@pytest.fixture(scope="module", params=["/", "/handbook/"])
def server(request: pytest.FixtureRequest, folder: Path) -> Iterator[Server]:
    server = Server(folder, base=request.param)
    with served(server):
        yield server


class Reply:
    def __init__(self, answer: http.client.HTTPResponse) -> None:
        self.status = answer.status
        self.headers = answer.headers
        self.body = answer.read()


def ask(server: Server, path: str, method: str = "GET", **headers: str) -> Reply:
    connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=10)
    try:
        named = {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, f"{server.base}{path}", headers=named)
        return Reply(connection.getresponse())
    finally:
        connection.close()


@pytest.mark.parametrize(("name", "kind"), TYPES.items())
def test_types(server: Server, name: str, kind: str):
    assert ask(server, name).headers["Content-Type"] == kind


@pytest.mark.parametrize(
    ("accepts", "encoding"),
    [
        ("", None),
        ("gzip", "gzip"),
        ("gzip, deflate, br, zstd", "br"),
        ("br;q=0, gzip", "gzip"),
        ("gzip;q=0.0", None),
        ("BR", "br"),
        ("identity", None),
    ],
)
def test_compression_is_what_the_browser_accepts(server: Server, accepts: str, encoding: str | None):
    reply = ask(server, "a.html", Accept_Encoding=accepts)
    unpack = {"br": brotli.decompress, "gzip": gzip.decompress, None: bytes}[encoding]
    assert reply.headers["Content-Encoding"] == encoding
    assert unpack(reply.body).decode() == f"<p>a.html {LONG}"
    assert int(reply.headers["Content-Length"]) == len(reply.body)
    assert reply.headers["Vary"] == "Accept-Encoding"
    assert reply.headers["Content-Type"] == TYPES["a.html"]


def test_a_file_without_a_sibling_is_sent_as_it_is(server: Server):
    reply = ask(server, "plain.txt", Accept_Encoding="br, gzip")
    assert (reply.body, reply.headers["Content-Encoding"]) == (b"short", None)


@pytest.mark.parametrize("path", ["", "a.mjs", "sub/", "nowhere", "runtime/0123456789ab/x.wasm"])
def test_every_reply_carries_the_policy(server: Server, path: str):
    headers = ask(server, path).headers
    assert headers["Content-Security-Policy"] == policy([])
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"


@pytest.mark.parametrize("path", ["b.0123456789ab.mjs", "runtime/0123456789ab/x.wasm"])
def test_hashed_files_are_kept_for_good(server: Server, path: str):
    assert ask(server, path).headers["Cache-Control"] == "public, max-age=31536000, immutable"


@pytest.mark.parametrize("path", ["", "a.mjs", "sub/", "nowhere", "nowhere.0123456789ab.mjs"])
def test_other_files_are_asked_for_again(server: Server, path: str):
    assert ask(server, path).headers["Cache-Control"] == "no-cache"


def test_an_unchanged_file_is_not_sent_again(server: Server):
    first = ask(server, "a.css", Accept_Encoding="br")
    again = ask(server, "a.css", Accept_Encoding="br", If_None_Match=first.headers["ETag"])
    assert (again.status, again.body) == (304, b"")
    other = ask(server, "a.css", Accept_Encoding="gzip", If_None_Match=first.headers["ETag"])
    assert other.status == 200


def test_folders(server: Server):
    assert ask(server, "sub/").body.startswith(b"<p>sub/index.html")
    moved = ask(server, "sub?sheet=a&b=1")
    assert (moved.status, moved.headers["Location"]) == (301, f"{server.base}sub/?sheet=a&b=1")
    assert ask(server, "a.html/").status == 404


def test_a_missing_page_is_the_page_for_lost_readers(server: Server):
    reply = ask(server, "nowhere/at/all")
    assert reply.status == 404
    assert reply.body.startswith(b"<p>404.html")


def test_head_has_no_body(server: Server):
    reply = ask(server, "a.html", "HEAD")
    assert (reply.status, reply.body) == (200, b"")
    assert int(reply.headers["Content-Length"]) > 1000


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "BREW"])
def test_nothing_but_reading(server: Server, method: str):
    reply = ask(server, "a.html", method)
    assert (reply.status, reply.headers["Allow"]) == (405, "GET, HEAD")
    assert reply.headers["Content-Security-Policy"] == policy([])


@pytest.mark.parametrize(
    "path",
    [
        "../secret.txt",
        "%2e%2e/secret.txt",
        "..%2fsecret.txt",
        "sub/../../secret.txt",
        "sub/%2e%2e/%2e%2e/secret.txt",
        "..%5csecret.txt",
        "%00/../../secret.txt",
        "//etc/passwd",
        "%2fetc/passwd",
        "out.txt",
        "%ff%fe",
        "a" * 5000,
    ],
)
def test_nothing_outside_the_site(server: Server, path: str):
    reply = ask(server, path)
    assert reply.status == 404
    assert reply.body != b"secret" and b"root:" not in reply.body


def test_a_redirect_stays_on_this_server(server: Server):
    # Two slashes at the start of an address would name another host.
    with socket.create_connection(("127.0.0.1", server.server_address[1]), timeout=10) as raw:
        raw.sendall(b"GET /%s/sub HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n" % server.base.strip("/").encode())
        reply = raw.makefile("rb").read().decode()
    location = [line for line in reply.splitlines() if line.startswith("Location:")]
    assert all(line.split()[1].startswith(server.base) and not line.split()[1].startswith("//") for line in location)


def test_the_sub_folder_is_all_there_is(folder: Path):
    server = Server(folder, base="handbook")
    with served(server) as address:
        assert address.endswith("/handbook/")
        connection = http.client.HTTPConnection("127.0.0.1", server.server_address[1], timeout=10)
        connection.request("GET", "/handbook?a=1")
        moved = connection.getresponse()
        assert (moved.status, moved.headers["Location"]) == (301, "/handbook/?a=1")
        moved.read()
        connection.request("GET", "/a.html")
        assert connection.getresponse().status == 404
        connection.close()
