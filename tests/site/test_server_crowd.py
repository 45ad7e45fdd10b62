"""Our server in a classroom: many at once, slow lines, lines that stop, and what is not written as it should be."""

from __future__ import annotations

import re
import shutil
import socket
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest

from site_src import server as server_module
from site_src.asked import Malformed, Unsatisfiable, has_already, range_of, target_of
from site_src.policy import policy, write_headers
from site_src.server import Handler, Server
from tests.conftest import served

pytestmark = pytest.mark.further

PHONES = 120  # connections of twenty phones
READERS = 50
ENGINE_BYTES = 9_600_000
ENGINE = "runtime/0123456789ab/engine.wasm"
GET = b"GET %s HTTP/1.1\r\nHost: x\r\n%s\r\n"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    site = tmp_path_factory.mktemp("crowd") / "site"
    (site / ENGINE).parent.mkdir(parents=True)
    (site / ENGINE).write_bytes(bytes(range(256)) * (ENGINE_BYTES // 256))
    (site / "index.html").write_text("<p>home")
    (site / "404.html").write_text("<p>lost")
    (site / "ten.txt").write_text("0123456789")
    write_headers(site, policy([]))
    return site


@pytest.fixture
def server(folder: Path) -> Iterator[Server]:
    server = Server(folder)
    with served(server):
        yield server


def line_to(server: Server, *, room: int = 0) -> socket.socket:
    """Open a connection; with little room the system takes little of an answer ahead of the reader."""
    raw = socket.socket()
    if room:
        raw.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, room)
    raw.settimeout(10)
    raw.connect(("127.0.0.1", server.server_address[1]))
    return raw


def all_of(raw: socket.socket) -> bytes:
    """Read until the other side ends it, in whatever way."""
    parts = []
    try:
        while data := raw.recv(65536):
            parts.append(data)
    except ConnectionError:
        pass
    return b"".join(parts)


def asked(server: Server, request: bytes) -> tuple[int, dict[str, str], bytes]:
    with line_to(server) as raw:
        raw.sendall(request)
        head, _, body = all_of(raw).partition(b"\r\n\r\n")
    first, *lines = head.decode().split("\r\n")
    return int(first.split()[1]), dict(line.split(": ", 1) for line in lines), body


def memory() -> int:
    """What this process holds [bytes]."""
    found = re.search(r"VmRSS:\s+(\d+) kB", Path("/proc/self/status").read_text())
    assert found
    return int(found[1]) * 1024


class TestManyAtOnce:
    def test_all_phones_of_a_classroom_get_in_before_anyone_is_answered(self, folder: Path):
        server = Server(folder)  # listens, and does not answer so far
        with ExitStack() as lines:
            phones = []
            for _ in range(PHONES):
                raw = lines.enter_context(socket.socket())
                raw.settimeout(1)
                raw.connect(("127.0.0.1", server.server_address[1]))
                phones.append(raw)
            with served(server):
                for raw in phones:
                    raw.settimeout(10)
                    raw.sendall(GET % (b"/", b"Connection: close\r\n"))
                assert [raw.recv(12) for raw in phones] == [b"HTTP/1.1 200"] * PHONES

    def test_more_than_there_are_places_wait_and_are_answered(self, folder: Path, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setattr(server_module, "MOST_CONNECTIONS", 4)
        monkeypatch.setattr(server_module, "REQUEST_S", 2)
        codes = []
        server = Server(folder)
        with served(server):
            before = threading.active_count()

            def one() -> None:
                codes.append(asked(server, GET % (b"/", b""))[0])  # keeps its line open, as browsers do

            threads = [threading.Thread(target=one) for _ in range(12)]
            for thread in threads:
                thread.start()
            most = 0
            while any(thread.is_alive() for thread in threads):
                most = max(most, threading.active_count() - before - sum(thread.is_alive() for thread in threads))
                time.sleep(0.005)
        assert codes == [200] * 12
        assert most <= 4

    def test_slow_readers_of_the_engine_do_not_fill_the_memory(self, server: Server):
        with ExitStack() as lines:
            before = memory()
            for _ in range(READERS):
                raw = lines.enter_context(line_to(server, room=4096))
                raw.sendall(GET % (f"/{ENGINE}".encode(), b""))
                raw.recv(100)
            assert memory() - before < 60_000_000  # all their answers together are eight times that
            assert asked(server, GET % (b"/", b"Connection: close\r\n"))[0] == 200


def test_a_server_that_is_stopped_answers_nobody_on_a_line_kept_open(folder: Path):
    server = Server(folder)
    with ExitStack() as lines:
        with served(server):
            raw = lines.enter_context(line_to(server))
            raw.sendall(GET % (b"/", b""))
            assert raw.recv(65536).startswith(b"HTTP/1.1 200")
        with pytest.raises(OSError):
            for _ in range(50):
                raw.sendall(GET % (b"/", b""))
                assert not raw.recv(65536)
                time.sleep(0.02)


class TestTime:
    """Nobody holds a place for ever."""

    def ended(self, raw: socket.socket, within: float) -> bool:
        raw.settimeout(within)
        began = time.monotonic()
        try:
            all_of(raw)
        except TimeoutError:
            return False
        return time.monotonic() - began < within

    def test_a_reader_that_stops(self, server: Server, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setattr(Handler, "timeout", 0.5)
        with line_to(server, room=4096) as raw:
            raw.sendall(GET % (f"/{ENGINE}".encode(), b""))
            raw.recv(100)
            time.sleep(2)
            assert len(all_of(raw)) < ENGINE_BYTES

    def test_a_reader_that_trickles(self, server: Server, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setattr(server_module, "ANSWER_S", 1)
        monkeypatch.setattr(server_module, "LEAST_BYTES_S", 10_000_000)
        got = 0
        with line_to(server, room=4096) as raw:
            raw.sendall(GET % (f"/{ENGINE}".encode(), b""))
            until = time.monotonic() + 6
            try:
                while time.monotonic() < until and (data := raw.recv(2000)):
                    got += len(data)
                    time.sleep(0.01)
            except ConnectionError:
                pass
            assert time.monotonic() < until, "it went on for ever"
        assert got < ENGINE_BYTES

    def test_a_slow_line_that_takes_what_it_has_to_gets_all_of_it(self, server: Server, monkeypatch):
        monkeypatch.setattr(server_module, "ANSWER_S", 1)
        monkeypatch.setattr(server_module, "LEAST_BYTES_S", ENGINE_BYTES // 8)
        with line_to(server) as raw:
            raw.sendall(GET % (f"/{ENGINE}".encode(), b"Connection: close\r\n"))
            got = 0
            while data := raw.recv(400_000):
                got += len(data)
                time.sleep(0.02)
        assert got > ENGINE_BYTES

    @pytest.mark.parametrize("begun", [b"", b"GET / HT", GET % (b"/", b"")], ids=["nothing", "half", "one"])
    def test_a_request_that_does_not_come(self, server: Server, begun: bytes, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setattr(server_module, "REQUEST_S", 0.5)
        with line_to(server) as raw:
            raw.sendall(begun)
            assert self.ended(raw, within=5)

    def test_a_request_that_trickles(self, server: Server, monkeypatch: pytest.MonkeyPatch):
        monkeypatch.setattr(server_module, "REQUEST_S", 0.5)
        with line_to(server) as raw, pytest.raises(OSError):
            for sign in b"GET / HTTP/1.1\r\nHost: x\r\nX-Long: " + b"a" * 500:
                raw.sendall(bytes([sign]))
                time.sleep(0.02)

    def test_a_head_without_an_end(self, server: Server):
        with line_to(server) as raw:
            try:
                for _ in range(2000):
                    raw.sendall(b"GET / HTTP/1.1\r\n" if not _ else b"X-%d: %s\r\n" % (_, b"a" * 1000))
            except OSError:
                pass
            assert all_of(raw)[:12] in (b"HTTP/1.1 431", b"")


MALFORMED = {
    "no slash": b"x",
    "a blank": b"/a b",
    "a control sign": b"/\x01",
    "a broken code": b"/%zz",
    "half a code": b"/a%2",
    "a fragment": b"/#a",
    "not of this alphabet": "/é".encode(),
    "an address without a path": b"http://x",
    "another scheme": b"ftp://x/a",
    "a backslash": b"/..\\a",
}


class TestWritten:
    @pytest.mark.parametrize("target", MALFORMED.values(), ids=MALFORMED.keys())
    def test_a_malformed_target_gets_400_under_the_policy(self, server: Server, target: bytes):
        code, headers, body = asked(server, GET % (target, b""))
        assert code == 400 and body.startswith(b"400 Bad Request")
        assert headers["Content-Security-Policy"] == policy([])
        assert headers["X-Content-Type-Options"] == "nosniff" and headers["Connection"] == "close"

    @pytest.mark.parametrize("target", [b"//[", b"//[::1", b"/[a]|{b}^`", b"/?a=[1]&b=%", b"http://other/ten.txt"])
    def test_an_odd_one_that_browsers_send_is_answered(self, server: Server, target: bytes):
        code, headers, _ = asked(server, GET % (target, b"Connection: close\r\n"))
        assert code in (200, 404) and headers["Content-Security-Policy"] == policy([])

    @pytest.mark.parametrize(
        "request_bytes",
        [
            b"GET / HTTP/1.1\r\nConnection: close\r\n\r\n",  # no host
            b"GET / HTTP/1.1\r\nHost: x\r\nHost: y\r\n\r\n",
            b"GET / HTTP/3.0\r\nHost: x\r\n\r\n",
            b"GET / HTTX/1.1\r\nHost: x\r\n\r\n",
            b"GET /\r\n\r\n",
            b"\x16\x03\x01\x02\x00\r\n\r\n",  # a browser that tries https
            GET % (b"/" + b"a" * 40_000, b""),
            GET % (b"/", b"X: y\r\n" * 200),
            GET % (b"/", b"X: " + b"y" * 40_000 + b"\r\n"),
        ],
    )
    def test_every_fault_carries_the_policy_and_ends_the_line(self, server: Server, request_bytes: bytes):
        code, headers, body = asked(server, request_bytes)
        assert 400 <= code < 600 and body
        assert headers["Content-Security-Policy"] == policy([])
        assert headers["Connection"] == "close" and headers["Content-Type"].startswith("text/plain")

    @pytest.mark.parametrize(
        "more",
        [
            b"Content-Length: 5\r\n",
            b"Content-Length: x\r\n",
            b"Content-Length: 0\r\nContent-Length: 5\r\n",
            b"Transfer-Encoding: chunked\r\n",
        ],
    )
    @pytest.mark.parametrize("method", [b"GET", b"HEAD"])
    def test_a_body_is_refused_and_not_taken_for_a_request(self, server: Server, more: bytes, method: bytes):
        hidden = GET % (b"/ten.txt", b"")
        code, headers, body = asked(server, (GET % (b"/", more)).replace(b"GET", method, 1) + hidden)
        assert (code, headers["Connection"]) == (400, "close")
        assert b"0123456789" not in body and (method == b"GET") == bool(body)

    def test_no_body_may_be_said(self, server: Server):
        assert asked(server, GET % (b"/", b"Content-Length: 0\r\nConnection: close\r\n"))[0] == 200

    def test_what_is_said_of_a_fault_has_no_control_signs(self, folder: Path):
        said: list[str] = []
        server = Server(folder, say=said.append)
        with served(server):
            asked(server, GET % (b"/\x1b[2Jno", b""))
            asked(server, GET % (b"/no-such", b"Connection: close\r\n"))
        assert len(said) == 2 and all(line.isprintable() for line in said)

    def test_before_there_is_a_site_the_strictest_policy_holds(self, tmp_path: Path):
        server = Server(tmp_path / "none")
        with served(server):
            code, headers, _ = asked(server, GET % (b"/", b""))
        assert (code, headers["Content-Security-Policy"]) == (404, "default-src 'none'")

    def test_while_a_site_is_replaced_the_last_policy_holds(self, folder: Path):
        server = Server(folder)
        with served(server):
            asked(server, GET % (b"/", b"Connection: close\r\n"))
            server.site = folder.with_name("away")
            code, headers, _ = asked(server, GET % (b"/", b""))
        assert (code, headers["Content-Security-Policy"]) == (404, policy([]))


def test_while_one_edition_takes_the_place_of_another_everything_is_answered(folder: Path, tmp_path: Path):
    site, other = tmp_path / "site", tmp_path / "other"
    for place in (site, other):
        shutil.copytree(folder, place, ignore=shutil.ignore_patterns("runtime"))
    server = Server(site)
    codes: Counter[int] = Counter()
    over = threading.Event()

    def ask() -> None:
        while not over.is_set():
            codes[asked(server, GET % (b"/ten.txt", b"Connection: close\r\n"))[0]] += 1

    with served(server):
        threads = [threading.Thread(target=ask) for _ in range(4)]
        for thread in threads:
            thread.start()
        for _ in range(60):
            site.rename(tmp_path / "former")
            time.sleep(0.02)
            other.rename(site)
            (tmp_path / "former").rename(other)
            time.sleep(0.04)
        over.set()
        for thread in threads:
            thread.join()
    assert set(codes) == {200} and codes[200] > 60


class TestRanges:
    """RFC 9110, section 14, with its own examples of what a range means."""

    @pytest.mark.parametrize(
        ("header", "part", "says"),
        [
            ("bytes=0-3", b"0123", "bytes 0-3/10"),
            ("bytes=4-", b"456789", "bytes 4-9/10"),
            ("bytes=-3", b"789", "bytes 7-9/10"),
            ("bytes=-300", b"0123456789", "bytes 0-9/10"),
            ("bytes=9-500", b"9", "bytes 9-9/10"),
            ("BYTES = 2 - 2 ", b"2", "bytes 2-2/10"),
        ],
    )
    def test_a_part(self, server: Server, header: str, part: bytes, says: str):
        code, headers, body = asked(server, GET % (b"/ten.txt", f"Range: {header}\r\nConnection: close\r\n".encode()))
        assert (code, body, headers["Content-Range"], headers["Content-Length"]) == (206, part, says, str(len(part)))

    @pytest.mark.parametrize("header", ["bytes=10-", "bytes=10-12", "bytes=-0"])
    def test_a_part_beyond_the_end(self, server: Server, header: str):
        code, headers, _ = asked(server, GET % (b"/ten.txt", f"Range: {header}\r\n".encode()))
        assert (code, headers["Content-Range"]) == (416, "bytes */10")

    @pytest.mark.parametrize("header", ["bytes=3-1", "bytes=a-b", "bytes=0-1,3-4", "lines=0-1", "bytes=-", "bytes="])
    def test_what_is_no_single_range_gets_all(self, server: Server, header: str):
        code, headers, body = asked(server, GET % (b"/ten.txt", f"Range: {header}\r\nConnection: close\r\n".encode()))
        assert (code, body, headers["Accept-Ranges"]) == (200, b"0123456789", "bytes")

    def test_a_part_of_what_has_changed_is_all_of_it(self, server: Server):
        tag = asked(server, GET % (b"/ten.txt", b"Connection: close\r\n"))[1]["ETag"]
        for known, code in ((tag, 206), ('"another"', 200)):
            more = f"Range: bytes=0-3\r\nIf-Range: {known}\r\nConnection: close\r\n".encode()
            assert asked(server, GET % (b"/ten.txt", more))[0] == code

    def test_a_part_of_a_large_file(self, server: Server):
        first, last = 5_000_000, 5_299_999
        more = f"Range: bytes={first}-{last}\r\nConnection: close\r\n".encode()
        _, headers, body = asked(server, GET % (f"/{ENGINE}".encode(), more))
        assert len(body) == 300_000 and body[:3] == bytes(number % 256 for number in range(first, first + 3))
        assert headers["Content-Type"] == "application/wasm"

    def test_a_head_says_the_whole_length_and_sends_nothing(self, server: Server):
        request = GET % (b"/ten.txt", b"Range: bytes=0-3\r\nConnection: close\r\n")
        code, headers, body = asked(server, request.replace(b"GET", b"HEAD", 1))
        assert (code, headers["Content-Length"], body) == (200, "10", b"")
        assert "Content-Range" not in headers


def test_what_is_asked_is_read_strictly():
    assert target_of("/a%20b/?x=1;2") == ("/a b/", "x=1;2")
    assert target_of("http://other:8000/a") == ("/a", "")
    for target in ("", "*", "/a\r\nX: y", "/\u00e9"):
        with pytest.raises(Malformed):
            target_of(target)
    for header, size in (("bytes=5-", 5), ("bytes=0-", 0), ("bytes=-1", 0)):
        with pytest.raises(Unsatisfiable):
            range_of(header, size)
    assert has_already('W/"a", "b"', '"b"') and has_already("*", '"b"') and not has_already("", '"b"')
