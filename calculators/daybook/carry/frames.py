"""A text as a sequence of short frames, each shown as one code, and the text again from frames in any order.

A frame names the transfer, its place and how many there are, and carries a check of itself. The transfer is named by
the SHA-256 of what is carried, which travels whole in front of it: the text comes out as it went in, or not at all.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Mapping
from hashlib import sha256
from typing import NamedTuple

from .base45 import decode, encode

MARK = "STK1"
"""Begins every frame; another way of carrying would begin otherwise."""

BYTES = 220
"""So many bytes travel in one frame: its code is then coarse enough to be read from one phone’s screen by another."""

MOST_FRAMES = 400
"""A transfer of more takes minutes: it goes by a file."""

MOST_CHARACTERS = 4_000_000
"""No text that is unpacked may be longer: a few frames can be made to hold gigabytes."""

_DIGEST = 32
_NAME = 16
_CHECK = 6
_FRAME = re.compile(
    rf"{MARK}:([0-9A-F]{{{_NAME}}}):([0-9]{{1,3}}):([0-9]{{1,3}}):([0-9A-F]{{{_CHECK}}}):(.*)", re.DOTALL
)


class TooLong(ValueError):
    """More than codes should carry."""


class Broken(ValueError):
    """The frames do not give the text that was sent."""


class Frame(NamedTuple):
    """One frame as it was read: the name of its transfer, its place from 1, how many there are, what it carries."""

    transfer: str
    number: int
    total: int
    body: str


def _check(transfer: str, number: int, total: int, body: str) -> str:
    return sha256(f"{transfer}:{number}:{total}:{body}".encode()).hexdigest()[:_CHECK].upper()


def frames_of(text: str) -> list[str]:
    """Write a text as frames.

    Parameters
    ----------
    text : str
        What is to be carried.

    Returns
    -------
    list of str
        Each of signs that a code holds closely.

    Raises
    ------
    TooLong
        When there would be more than ``MOST_FRAMES``.
    """
    if len(text) > MOST_CHARACTERS:
        raise TooLong(f"{len(text)} characters")
    packed = zlib.compress(text.encode(), 9)
    digest = sha256(packed).digest()
    data = digest + packed
    name = digest.hex()[:_NAME].upper()
    bodies = [encode(data[at : at + BYTES]) for at in range(0, len(data), BYTES)]
    total = len(bodies)
    if total > MOST_FRAMES:
        raise TooLong(f"{total} codes")
    return [
        f"{MARK}:{name}:{number}:{total}:{_check(name, number, total, body)}:{body}"
        for number, body in enumerate(bodies, 1)
    ]


def frame_of(text: str) -> Frame | None:
    """Read one frame; None for anything else that a camera may see, or for one that is damaged."""
    found = _FRAME.fullmatch(text) if len(text) <= 4 * BYTES else None
    if found is None:
        return None
    name, number, total, check, body = found[1], int(found[2]), int(found[3]), found[4], found[5]
    if not 1 <= number <= total <= MOST_FRAMES or check != _check(name, number, total, body):
        return None
    return Frame(name, number, total, body)


def text_of(frames: Mapping[int, Frame]) -> str:
    """Give the text that frames carry.

    Parameters
    ----------
    frames : mapping of int to Frame
        By their place; all of one transfer.

    Returns
    -------
    str
        The whole text.

    Raises
    ------
    Broken
        When one is missing, when they do not belong together, or when the whole is not what was sent.
    """
    if not frames:
        raise Broken("no code was read")
    first = next(iter(frames.values()))
    if set(frames) != set(range(1, first.total + 1)):
        raise Broken("a code is missing")
    if any((one.transfer, one.total) != (first.transfer, first.total) for one in frames.values()):
        raise Broken("they belong to different transfers")
    try:
        data = b"".join(decode(frames[number].body) for number in range(1, first.total + 1))
    except ValueError:
        raise Broken("a code holds what no code of ours holds") from None
    digest, packed = data[:_DIGEST], data[_DIGEST:]
    if sha256(packed).digest() != digest or digest.hex()[:_NAME].upper() != first.transfer:
        raise Broken("the whole is not what was sent")
    unpacking = zlib.decompressobj()
    try:
        text = unpacking.decompress(packed, MOST_CHARACTERS)
        if not unpacking.eof or unpacking.unused_data:
            raise Broken("it unpacks to more than a book of ours, or not to its end")
        return text.decode()
    except (zlib.error, UnicodeDecodeError):
        raise Broken("it does not unpack") from None
