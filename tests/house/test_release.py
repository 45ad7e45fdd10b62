"""A release is one archive, the same bytes each time, whose checksum is printed and holds."""

from __future__ import annotations

import hashlib
import os
import tarfile
from pathlib import Path

import pytest

from site_src.edition import CHECKSUMS
from site_src.release import make_release, pack
from site_src.settings import BuildError


def site(tmp_path: Path) -> Path:
    folder = tmp_path / "site"
    (folder / "a").mkdir(parents=True)
    files = {"index.html": b"home", "a/index.html": b"a page"}
    for name, data in files.items():
        (folder / name).write_bytes(data)
    lines = [f"{hashlib.sha256(data).hexdigest()}  {name}\n" for name, data in files.items()]
    (folder / CHECKSUMS).write_text("".join(lines), "utf-8")
    return folder


def test_it_is_packed_whole_and_alike_each_time(tmp_path: Path):
    built, to = site(tmp_path), tmp_path / "release"
    made, digest, _ = make_release(to, site=built)
    (archive,) = to.glob("*.tar.gz")
    assert archive.name in made and digest == f"SHA-256 {hashlib.sha256(archive.read_bytes()).hexdigest()}"
    assert (to / f"{archive.name}.sha256").read_text("utf-8").split() == [digest.split()[1], archive.name]
    with tarfile.open(archive) as held:
        names = held.getnames()
        assert {name.split("/", 1)[1] for name in names} == {"index.html", "a/index.html", CHECKSUMS}
        assert names == sorted(names)
    os.utime(built / "index.html", (1, 1))
    assert pack(built, "x") == pack(built, "x")
    first = archive.read_bytes()
    make_release(to, site=built)
    assert archive.read_bytes() == first


def test_a_site_that_is_not_as_it_was_built_is_not_released(tmp_path: Path):
    built = site(tmp_path)
    (built / "index.html").write_bytes(b"other")
    with pytest.raises(BuildError, match="is damaged"):
        make_release(tmp_path / "release", site=built)
    assert not list((tmp_path / "release").glob("*.tar.gz"))
