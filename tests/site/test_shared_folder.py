"""The folder of a shared book on each server: what may be done to it, and what never."""

from __future__ import annotations

import base64
import errno
import http.client
import socket
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from pathlib import Path
from urllib.parse import urlsplit
from urllib.request import urlopen

import pytest

from site_src.policy import policy, write_headers
from site_src.server import Server
from tests.conftest import served
from tests.site.shared_servers import PASSWORD, RUN, USER, Shared, name_of

TEXT = b'{"kind": "steep-to-kiln day-book", "entries": []}' * 100


def site_in(top: Path) -> Path:
    site = top / "site"
    site.mkdir()
    (site / "index.html").write_text("<p>the site</p>")
    (site / "404.html").write_text("<p>not here</p>")
    write_headers(site, policy([]))
    return site


@pytest.fixture(params=sorted(RUN))
def shared(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Shared]:
    with RUN[request.param](site_in(tmp_path), tmp_path) as running:
        yield running


def asked(
    shared: Shared, method: str, name: str = "", body: bytes | None = None, password: str = PASSWORD, **headers: str
) -> tuple[int, bytes]:
    token = base64.b64encode(f"{USER}:{password}".encode()).decode()
    with closing(http.client.HTTPConnection(urlsplit(shared.address).netloc, timeout=10)) as line:
        line.request(method, f"/shared/{name}", body, {"Authorization": f"Basic {token}", **headers})
        answer = line.getresponse()
        return answer.status, answer.read()


def test_a_file_is_added_listed_and_read_back(shared: Shared) -> None:
    name = name_of(TEXT)
    assert asked(shared, "GET")[0] == 200
    assert name.encode() not in asked(shared, "GET")[1]
    assert asked(shared, "PUT", name, TEXT)[0] in (201, 204)
    assert name.encode() in asked(shared, "GET")[1]
    assert asked(shared, "GET", name) == (200, TEXT)
    assert (shared.folder / name).read_bytes() == TEXT


def test_a_file_is_never_written_over(shared: Shared) -> None:
    name = name_of(TEXT)
    asked(shared, "PUT", name, TEXT)
    assert asked(shared, "PUT", name, b"other")[0] in (409, 412)
    assert asked(shared, "PUT", name, b"other", **{"If-None-Match": "*"})[0] in (409, 412)
    assert (shared.folder / name).read_bytes() == TEXT


@pytest.mark.parametrize("method", ["DELETE", "MOVE", "COPY", "MKCOL", "POST", "PROPPATCH", "LOCK"])
def test_nothing_is_taken_away_or_moved(shared: Shared, method: str) -> None:
    name = name_of(TEXT)
    asked(shared, "PUT", name, TEXT)
    for target in (name, "", "made/"):
        assert asked(shared, method, target, Destination=f"{shared.address}shared/x")[0] >= 400
    assert [place.name for place in shared.folder.iterdir() if not place.name.startswith(".")] == [name]
    assert (shared.folder / name).read_bytes() == TEXT


def test_a_wrong_password_gets_and_gives_nothing(shared: Shared) -> None:
    if not shared.has_password:
        pytest.skip("our own server has no passwords, and its page says so")
    name = name_of(TEXT)
    assert asked(shared, "PUT", name, TEXT, password="wrong")[0] == 401
    assert asked(shared, "GET", password="wrong")[0] == 401
    assert not (shared.folder / name).exists()
    with urlopen(f"{shared.address}index.html", timeout=10) as page:
        assert page.status == 200, "the handbook itself asks for no password"


def test_what_is_cut_off_is_no_file_that_lasts_as_whole(shared: Shared) -> None:
    name = name_of(TEXT)
    token = base64.b64encode(f"{USER}:{PASSWORD}".encode()).decode()
    head = (
        f"PUT /shared/{name} HTTP/1.1\r\nHost: a\r\nAuthorization: Basic {token}\r\nContent-Length: {len(TEXT)}\r\n\r\n"
    )
    where = urlsplit(shared.address)
    with socket.create_connection((where.hostname, where.port or 80)) as line:
        line.sendall(head.encode() + TEXT[:2000])
    time.sleep(0.5)
    place = shared.folder / name
    assert not place.exists() or place.read_bytes() != TEXT
    status, half = asked(shared, "GET", name)
    assert status == 404 or half != TEXT


def test_the_listing_of_a_server_without_one_comes_by_propfind(tmp_path: Path) -> None:
    with RUN["apache2"](site_in(tmp_path), tmp_path) as shared:
        asked(shared, "PUT", name_of(TEXT), TEXT)
        status, text = asked(shared, "PROPFIND", Depth="1")
        assert status == 207
        assert name_of(TEXT).encode() in text


def test_our_server_offers_it_only_behind_its_switch(tmp_path: Path) -> None:
    site = site_in(tmp_path)
    (site / "shared").mkdir()
    with served(Server(site)) as address:
        without = Shared(address, site / "shared", has_password=False)
        assert asked(without, "PUT", name_of(TEXT), TEXT)[0] == 405
        assert asked(without, "GET")[0] == 404
    assert list((site / "shared").iterdir()) == []


@pytest.mark.parametrize("name", ["x.json", "../index.html", "%2e%2e/index.html", name_of(TEXT) + "x", ".half"])
def test_our_server_takes_no_other_name(tmp_path: Path, name: str) -> None:
    with RUN["ours"](site_in(tmp_path), tmp_path) as shared:
        assert asked(shared, "PUT", name, TEXT)[0] >= 400
        assert list(shared.folder.iterdir()) == []


@pytest.mark.parametrize(("fault", "status"), [(errno.ENOSPC, 507), (errno.EDQUOT, 507), (errno.EIO, 500)])
def test_our_server_on_a_full_disk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: int, status: int) -> None:
    def full(_: int) -> None:
        raise OSError(fault, "no")

    monkeypatch.setattr("site_src.shared_folder.os.fsync", full)
    with RUN["ours"](site_in(tmp_path), tmp_path) as shared:
        assert asked(shared, "PUT", name_of(TEXT), TEXT)[0] == status
        assert list(shared.folder.iterdir()) == []


@pytest.mark.parametrize("server", ["nginx", "apache2"])
def test_a_folder_that_cannot_be_written(tmp_path: Path, server: str) -> None:
    """A disk that takes nothing more, made of a file where the folder should be: a write error that root meets too."""
    with RUN[server](site_in(tmp_path), tmp_path) as shared:
        for place in shared.folder.iterdir():
            place.unlink()
        shared.folder.rmdir()
        shared.folder.write_text("")
        assert asked(shared, "PUT", name_of(TEXT), TEXT)[0] >= 400


def test_too_much_at_once_is_refused(shared: Shared) -> None:
    with suppress(BrokenPipeError, ConnectionResetError):  # hung up on, which is a refusal too
        assert asked(shared, "PUT", name_of(TEXT), b"x" * 5_000_000)[0] in (400, 413)
    assert [place.name for place in shared.folder.iterdir() if not place.name.startswith(".")] == []
