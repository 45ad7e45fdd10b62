"""What a request asks for, read strictly: its target, the range, the encodings it accepts, what it has already."""

from __future__ import annotations

import re
from http.client import LineTooLong
from typing import BinaryIO
from urllib.parse import unquote

# What RFC 3986 allows in a path or a query, and the few signs that browsers send without encoding them.
_SIGN = r"[!$&-;=@-Z\[\]^_`a-z{|}~]"
_PATH = rf"/(?:{_SIGN}|%[0-9A-Fa-f]{{2}})*"
_TARGET = re.compile(rf"(?:https?://[^/?#]+)?(?P<path>{_PATH})(?:\?(?P<query>(?:{_SIGN}|[?%])*))?")
_RANGE = re.compile(r"bytes\s*=\s*(?:(\d+)\s*-\s*(\d*)|-\s*(\d+))\s*", re.IGNORECASE)
_NO_WEIGHT = re.compile(r"\s*q\s*=\s*0(\.0*)?\s*")
_TAG = re.compile(r'(?:W/)?("[^"]*")')


class Head:
    """The lines of one request, of which there are not to be too many."""

    def __init__(self, source: BinaryIO) -> None:
        self._source = source
        self.left = 0

    def readline(self, limit: int) -> bytes:
        """Read one line, or say that all lines together are too long."""
        line = self._source.readline(min(limit, self.left + 1))
        self.left -= len(line)
        if self.left < 0:
            raise LineTooLong("request")
        return line

    def read(self, size: int) -> bytes:
        """Read what comes behind the lines."""
        return self._source.read(size)

    def close(self) -> None:
        """Read no more."""
        self._source.close()

    @property
    def closed(self) -> bool:
        """Tell whether no more is read."""
        return self._source.closed


class Malformed(ValueError):
    """A request that is not written as the standard says."""


class Unsatisfiable(ValueError):
    """A range that lies beyond the end of the file."""


def target_of(target: str) -> tuple[str, str]:
    """Return the path, decoded, and the query of a request's target.

    Raises
    ------
    Malformed
        If it is neither a path nor a whole address, or has a sign in it that none may have.
    """
    found = _TARGET.fullmatch(target)
    if not found:
        raise Malformed("the address is not written as an address is")
    return unquote(found["path"], errors="replace"), found["query"] or ""


def range_of(header: str, size: int) -> tuple[int, int] | None:
    """Return the first byte and the one after the last; None when all of the file is to be sent.

    Several ranges at once are not asked for by browsers that read this site: they get all of it, as they may.

    Raises
    ------
    Unsatisfiable
        If the range begins beyond the end.
    """
    found = _RANGE.fullmatch(header)
    if not found:
        return None
    first, last, suffix = found.groups()
    if suffix is not None:
        start, stop = max(0, size - int(suffix)), size
    else:
        start, stop = int(first), min(size, int(last) + 1) if last else size
        if last and int(last) < int(first):
            return None
    if start >= stop:
        raise Unsatisfiable
    return start, stop


def accepted(header: str) -> set[str]:
    """Return the encodings that a browser accepts."""
    names = set()
    for part in header.split(","):
        name, _, weight = part.partition(";")
        if not _NO_WEIGHT.fullmatch(weight):
            names.add(name.strip().lower())
    return names


def has_already(header: str, tag: str) -> bool:
    """Tell whether one of the marks in an ``If-None-Match`` is the file's."""
    return header.strip() == "*" or tag in _TAG.findall(header)
