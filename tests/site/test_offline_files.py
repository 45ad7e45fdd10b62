"""What is kept for use without a network, its worker, the manifest, and the settings for other servers."""

from __future__ import annotations

import hashlib
import json
import re
import shutil
import socket
import subprocess
import time
from contextlib import closing
from email.message import Message
from http.client import HTTPConnection
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urlsplit

import pytest
import yaml

from site_src.hosts import PLACE
from site_src.offline import write_worker
from site_src.policy import CAMERA_PAGE, PERMISSIONS, WITH_CAMERA
from site_src.settings import ROOT, BuildError

pytestmark = pytest.mark.site


def offer_and_list(site: Path) -> tuple[dict[str, object], dict[str, list[object]]]:
    offer = json.loads((site / "offline.json").read_text("utf-8"))
    return offer, json.loads((site / offer["list"]).read_text("utf-8"))["files"]


def place(site: Path, address: str) -> Path:
    return site / (f"{address}index.html" if not address or address.endswith("/") else address)


def test_every_file_that_is_published_is_kept_with_its_hash(built_site: Path):
    offer, files = offer_and_list(built_site)
    for address, (digest, size) in files.items():
        data = place(built_site, address).read_bytes()
        assert (hashlib.sha256(data).hexdigest(), len(data)) == (digest, size), address
    assert offer["bytes"] == sum(int(str(size)) for _, size in files.values())
    kept = {place(built_site, address).relative_to(built_site).as_posix() for address in files}
    published = {
        path.relative_to(built_site).as_posix()
        for path in built_site.rglob("*")
        if path.is_file() and path.suffix not in (".br", ".gz", ".map")
    }
    missing = {name for name in published - kept if not name.startswith(("assets/javascripts/lunr/", "serving/"))}
    assert missing == {"headers.json", "offline.json", offer["list"], "service-worker.js", "checksums.txt"}


def test_what_is_fetched_over_a_network_is_at_most_a_third(built_site: Path):
    offer, _ = offer_and_list(built_site)
    assert int(str(offer["carried"])) * 3 < int(str(offer["bytes"]))


def test_the_service_worker_is_one_plain_script(built_site: Path):
    text = (built_site / "service-worker.js").read_text("utf-8")
    assert not re.search(r"^\s*(import|export)\b", text, re.MULTILINE)
    assert "function wholeCopy" in text and 'addEventListener("fetch"' in text
    assert not (built_site / "service-worker.mjs").exists()


def test_a_service_worker_that_no_browser_could_run_stops_the_build(tmp_path: Path):
    theme = ROOT / "site_src" / "theme"
    shutil.copytree(theme / "assets", tmp_path / "assets")
    source = (theme / "service-worker.mjs").read_text("utf-8")
    for line, said in (('import "./other.mjs";', "other.mjs"), ("export const a = 1;", "export const a")):
        (tmp_path / "service-worker.mjs").write_text(f"{line}\n{source}", "utf-8")
        with pytest.raises(BuildError, match=said):
            write_worker(tmp_path)


def test_the_manifest_names_the_site_and_icons_that_are_there(built_site: Path):
    manifest = json.loads((built_site / "manifest.webmanifest").read_text("utf-8"))

    class Loader(yaml.SafeLoader):
        """Reads mkdocs.yml past its own tags."""

    Loader.add_constructor("!ENV", lambda *_: None)
    config = yaml.load((ROOT / "mkdocs.yml").read_text("utf-8"), Loader)
    assert manifest["name"] == config["site_name"]
    assert manifest["description"] == config["site_description"]
    sizes = set()
    for icon in manifest["icons"]:
        data = (built_site / icon["src"]).read_bytes()
        if icon["type"] == "image/png":  # PNG: width and height stand at bytes 16 and 20
            assert data.startswith(b"\x89PNG\r\n\x1a\n")
            size = f"{int.from_bytes(data[16:20], 'big')}x{int.from_bytes(data[20:24], 'big')}"
            assert size == icon["sizes"]
            sizes.add(size)
    assert sizes == {"192x192", "512x512"}
    for page in ("index.html", "safety/index.html"):
        assert re.search(r'<link rel="manifest" href="[^"]*manifest\.webmanifest">', (built_site / page).read_text())


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


class Reply(NamedTuple):
    status: int
    headers: Message
    body: bytes


def ask(port: int, path: str, encodings: str = "") -> Reply:
    with closing(HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.request("GET", path, headers={"Accept-Encoding": encodings, "Connection": "close"})
        with connection.getresponse() as reply:
            return Reply(reply.status, reply.headers, reply.read())


def check_server(site: Path, port: int, best: str) -> None:
    """What our own server does, asked of another."""
    headers = json.loads((site / "headers.json").read_text("utf-8"))
    wasm = next((site / "runtime").glob("*/pyodide.asm.wasm"))
    script = next(path for path in (site / "assets/browser").glob("page.*.mjs"))
    app = next(path for path in (site / "assets/app").glob("*.zip"))
    kinds = {
        wasm: "application/wasm",
        script: "text/javascript; charset=utf-8",
        app: "application/zip",
        site / "manifest.webmanifest": "application/manifest+json",
        site / "service-worker.js": "text/javascript; charset=utf-8",
    }
    for path, kind in kinds.items():
        name = f"/{path.relative_to(site).as_posix()}"
        for encodings in ("", "gzip, deflate, br"):
            reply = ask(port, name, encodings)
            assert reply.status == 200, name
            assert reply.headers["Content-Type"] == kind, name
            for header, value in headers.items():
                assert reply.headers.get_all(header) == [value], (name, header)
            for_good = path in (wasm, script, app)
            assert reply.headers.get_all("Cache-Control") == [
                "public, max-age=31536000, immutable" if for_good else "no-cache"
            ], (name, encodings)
            squeezed = path.with_name(path.name + {"br": ".br", "gzip": ".gz"}[best])
            if encodings and squeezed.exists():
                assert reply.headers["Content-Encoding"] == best and reply.body == squeezed.read_bytes()
                assert "Accept-Encoding" in reply.headers["Vary"]
            else:
                assert reply.headers["Content-Encoding"] is None and reply.body == path.read_bytes()
    for address in (f"/{CAMERA_PAGE}", f"/{CAMERA_PAGE}index.html"):
        for encodings in ("", "gzip, deflate, br"):
            assert ask(port, address, encodings).headers.get_all(PERMISSIONS) == [WITH_CAMERA]
    for address in ("/records/day-book/", "/", "/no-such-page/", f"/no/{CAMERA_PAGE}"):
        assert ask(port, address).headers.get_all(PERMISSIONS) == [headers[PERMISSIONS]]
    home = ask(port, "/")
    assert home.status == 200 and home.headers["Content-Type"] == "text/html; charset=utf-8"
    bare = ask(port, "/safety")
    assert bare.status == 301 and urlsplit(bare.headers["Location"]).path == "/safety/"
    lost = ask(port, "/no-such-page/", "gzip")
    assert lost.status == 404 and lost.headers["Content-Security-Policy"] == headers["Content-Security-Policy"]
    gone = ask(port, "/assets/browser/page.000000000000.mjs")
    assert gone.status == 404 and "immutable" not in (gone.headers["Cache-Control"] or "")
    assert b"</html>" in ask(port, "/no-such-page/").body


def wait_for(port: int, process: subprocess.Popen[bytes]) -> None:
    for _ in range(100):
        if process.poll() is not None:
            break
        try:
            socket.create_connection(("127.0.0.1", port), 0.2).close()
            return
        except OSError:
            time.sleep(0.1)
    pytest.fail("the server did not start")


def test_nginx_with_our_settings(built_site: Path, tmp_path: Path):
    program = shutil.which("nginx", path="/usr/sbin:/usr/bin:/usr/local/sbin")
    if not program:
        pytest.skip("Debian's nginx-light is not installed")
    port = free_port()
    settings = (built_site / "serving/nginx.conf").read_text("utf-8")
    settings = settings.replace("listen 80;", f"listen 127.0.0.1:{port};").replace(PLACE, str(built_site))
    (tmp_path / "nginx.conf").write_text(
        f"""daemon off; pid {tmp_path}/pid; error_log {tmp_path}/error.log; worker_processes 1; user root;
        events {{}} http {{ access_log off;
        client_body_temp_path {tmp_path}/1; proxy_temp_path {tmp_path}/2; fastcgi_temp_path {tmp_path}/3;
        uwsgi_temp_path {tmp_path}/4; scgi_temp_path {tmp_path}/5;
        {settings} }}"""
    )
    with subprocess.Popen([program, "-c", tmp_path / "nginx.conf", "-p", tmp_path]) as process:
        try:
            wait_for(port, process)
            check_server(built_site, port, "gzip")
        finally:
            process.terminate()


def test_apache_with_our_settings(built_site: Path, tmp_path: Path):
    program = shutil.which("apache2", path="/usr/sbin:/usr/bin")
    if not program:
        pytest.skip("Debian's apache2 is not installed")
    port = free_port()
    settings = (built_site / "serving/apache.conf").read_text("utf-8").replace(PLACE, str(built_site))
    modules = "".join(
        f"LoadModule {name}_module /usr/lib/apache2/modules/mod_{name}.so\n"
        for name in ("mpm_event", "authz_core", "dir", "mime", "headers", "rewrite")
    )
    (tmp_path / "apache.conf").write_text(
        f"""ServerRoot {tmp_path}
        ServerName 127.0.0.1
        Listen 127.0.0.1:{port}
        PidFile {tmp_path}/pid
        ErrorLog {tmp_path}/error.log
        {modules}
        TypesConfig /etc/mime.types
        DocumentRoot {built_site}
        {settings}"""
    )
    with subprocess.Popen([program, "-f", tmp_path / "apache.conf", "-DFOREGROUND"]) as process:
        try:
            wait_for(port, process)
            check_server(built_site, port, "br")
        finally:
            process.terminate()
