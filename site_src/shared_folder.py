"""The folder through which a house shares one day-book, as our own server has it: a listing, GET, PUT of new files."""

from __future__ import annotations

import errno
import json
import os
import re
import tempfile
from contextlib import suppress
from email.message import Message
from http import HTTPStatus
from pathlib import Path
from typing import BinaryIO

NAME = re.compile(r"[0-9a-z]{8}-[0-9]{6}-[0-9a-f]{64}\.json")
"""Device, running number, SHA-256 of what is in the file; the page makes these names."""

BELOW = "shared/"
"""Where the folder lies, below the site."""

MOST_BYTES = 4_000_000
_PIECE = 65_536


def text_of(folder: Path, name: str) -> bytes | None:
    """Return a file of the folder; without a name the list of all, as nginx writes it in JSON."""
    try:
        if name:
            return (folder / name).read_bytes() if NAME.fullmatch(name) else None
        names = sorted(place.name for place in folder.iterdir() if NAME.fullmatch(place.name))
    except OSError:
        return None
    return json.dumps([{"name": one, "type": "file"} for one in names]).encode()


def length_of(headers: Message) -> int:
    """Return how many bytes of a body are promised; none where that is not said as it should be."""
    length = headers.get("Content-Length", "")
    return int(length) if length.isascii() and length.isdecimal() and len(length) < 10 else 0


def receive(source: BinaryIO, length: int, folder: Path, name: str) -> HTTPStatus:
    """Write what comes into a new file, whole or not at all; a file that is there is never written over.

    Parameters
    ----------
    source : BinaryIO
        What is sent.
    length : int
        Its bytes, as promised.
    folder : Path
        Where the file goes.
    name : str
        Its name, one of ours.

    Returns
    -------
    HTTPStatus
        201 written, 400 cut off on the way or empty, 405 no name of ours, 413 too large, 409 there already,
        507 no room, 500 any other fault of the disk.
    """
    if not NAME.fullmatch(name):
        return HTTPStatus.METHOD_NOT_ALLOWED
    if length > MOST_BYTES:
        return HTTPStatus.REQUEST_ENTITY_TOO_LARGE
    if not length:
        return HTTPStatus.BAD_REQUEST
    half = None
    try:
        with tempfile.NamedTemporaryFile(dir=folder, prefix=".half-", delete=False) as file:
            half = Path(file.name)
            while length and (piece := source.read(min(_PIECE, length))):
                file.write(piece)
                length -= len(piece)
            if length:
                return HTTPStatus.BAD_REQUEST
            file.flush()
            os.fsync(file.fileno())
        (folder / name).hardlink_to(half)
    except FileExistsError:
        return HTTPStatus.CONFLICT
    except OSError as fault:
        if isinstance(fault, ConnectionError | TimeoutError):
            raise
        full = fault.errno in (errno.ENOSPC, errno.EDQUOT)
        return HTTPStatus.INSUFFICIENT_STORAGE if full else HTTPStatus.INTERNAL_SERVER_ERROR
    finally:
        if half:
            with suppress(OSError):
                half.unlink()
    return HTTPStatus.CREATED
