"""What the browser keeps for use without a network: the list of all files with their SHA-256, and its worker."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from site_src.edition import OFFER, WORKER, kept_files
from site_src.file_types import TYPES
from site_src.joining import script_of
from site_src.policy import CAMERA_PAGE, headers_of, read_headers
from site_src.runtime import sha256

_SOURCE = "service-worker.mjs"


def write_worker(site: Path) -> None:
    """Make the service worker one plain script, since not every browser lets it import modules.

    Raises
    ------
    BuildError
        If a line would be left that only a module may have.
    """
    (site / WORKER).write_text(script_of(site, _SOURCE), "utf-8")
    (site / _SOURCE).unlink()


def write_list(site: Path, mark: str, corrections: Sequence[Mapping[str, object]] = ()) -> Path:
    """List every file of the finished, compressed site.

    ``offline.json`` says what the newest edition is, how large, and what it corrects; the list itself has a name that
    changes with the edition. Pages stand under the address of their folder.

    Parameters
    ----------
    site : Path
        The site, marked with its edition.
    mark : str
        The edition's mark.
    corrections : Sequence[Mapping[str, object]]
        Corrections that concern safety, as ``corrections.as_data`` gives them.

    Returns
    -------
    Path
        The list, which is not compressed yet.
    """
    files: dict[str, tuple[str, int]] = {}
    carried = 0
    for name in kept_files(site):
        data = (site / name).read_bytes()
        address = name if name.endswith("404.html") else re.sub(r"(^|/)index\.html$", r"\1", name)
        files[address] = (sha256(data), len(data))
        squeezed = site / f"{name}.br"
        carried += squeezed.stat().st_size if squeezed.is_file() else len(data)
    ids = [one["id"] for one in corrections]
    headers = read_headers(site)
    apart = {CAMERA_PAGE: headers_of(headers, CAMERA_PAGE)}  # files with headers of their own
    content = {
        "version": mark,
        "files": files,
        "headers": headers,
        "apart": apart,
        "types": TYPES,
        "corrections": ids,
    }
    target = site / f"offline.{mark[:12]}.json"
    target.write_text(json.dumps(content, separators=(",", ":")), "utf-8")
    offer = {
        "version": mark,
        "list": target.name,
        "bytes": sum(size for _, size in files.values()),
        "carried": carried,
        "corrections": list(corrections),
    }
    (site / OFFER).write_text(json.dumps(offer) + "\n", "utf-8")
    return target
