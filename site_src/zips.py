"""Zip archives whose bytes depend on their members alone."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Mapping

_THEN = (1980, 1, 1, 0, 0, 0)  # the earliest date a zip can carry


def read_zip(data: bytes) -> dict[str, bytes]:
    """Return the members of an archive by name, folders left out."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {item.filename: archive.read(item) for item in archive.infolist() if not item.is_dir()}


def stored_zip(members: Mapping[str, bytes]) -> bytes:
    """Return an archive that holds the members uncompressed, in the order of their names.

    Uncompressed, because the server compresses the archive as one stream, which comes out far smaller than
    many small streams; and because the bytes then do not depend on the zlib that happens to be installed,
    so that the archive's SHA-256 can be pinned.
    """
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(members):
            item = zipfile.ZipInfo(name, _THEN)
            item.create_system = 3
            item.external_attr = 0o644 << 16
            archive.writestr(item, members[name])
    return out.getvalue()
