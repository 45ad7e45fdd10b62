"""A release of the book: the built site as one archive, the same bytes each time, with its checksum beside it."""

from __future__ import annotations

import gzip
import hashlib
import tarfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

from calculators import __version__
from site_src.build import build
from site_src.checked import check_site
from site_src.settings import ROOT

RELEASES = ROOT / "release"


def make_release(to: Path = RELEASES, *, site: Path | None = None, say: Callable[[str], None] = print) -> list[str]:
    """Build the site and pack it.

    Parameters
    ----------
    to : Path
        The folder for the archive and its checksum.
    site : Path, optional
        A site that is built already; it is read through against its checksums.
    say : callable
        Called with a line to show.

    Returns
    -------
    list of str
        What was made, and how to look whether it arrived whole.

    Raises
    ------
    BuildError
        When the site cannot be built, or is not as it was built.
    """
    to.mkdir(parents=True, exist_ok=True)
    name = f"steep-to-kiln-{__version__}"
    with TemporaryDirectory() as folder:
        built = site or build(Path(folder) / "site", say=say)
        count = check_site(built)
        packed = pack(built, name)
    archive = to / f"{name}.tar.gz"
    archive.write_bytes(packed)
    digest = hashlib.sha256(packed).hexdigest()
    (to / f"{archive.name}.sha256").write_text(f"{digest}  {archive.name}\n", "utf-8")
    return [
        f"{archive}: {count} files, {len(packed) / 1e6:.1f} MB",
        f"SHA-256 {digest}",
        f"Look whether it arrived whole: sha256sum --check {archive.name}.sha256",
    ]


def pack(site: Path, name: str) -> bytes:
    """A site as a tar file, compressed: in order of names, without dates and owners, so that two can be compared."""
    plain = BytesIO()
    with tarfile.open(fileobj=plain, mode="w", format=tarfile.PAX_FORMAT) as archive:
        for path in sorted(site.rglob("*")):
            if path.is_file():
                entry = tarfile.TarInfo(f"{name}/{path.relative_to(site).as_posix()}")
                entry.size, entry.mode = path.stat().st_size, 0o644
                with path.open("rb") as data:
                    archive.addfile(entry, data)
    return gzip.compress(plain.getvalue(), compresslevel=6, mtime=0)
