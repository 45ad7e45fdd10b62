"""Bytes as the 45 signs that a QR code holds most closely, and back."""

from __future__ import annotations

ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
_PLACE = {sign: place for place, sign in enumerate(ALPHABET)}
_BASE = len(ALPHABET)


def encode(data: bytes) -> str:
    """Write bytes in base 45: two bytes as three signs, a last one alone as two.

    Parameters
    ----------
    data : bytes
        Any bytes.

    Returns
    -------
    str
        Signs of ``ALPHABET``.

    References
    ----------
    RFC 9285, The Base45 Data Encoding, 2022; its examples are tests.
    """
    signs = []
    for at in range(0, len(data), 2):
        pair = data[at : at + 2]
        value = int.from_bytes(pair, "big")
        for _ in range(len(pair) + 1):
            value, place = divmod(value, _BASE)
            signs.append(ALPHABET[place])
    return "".join(signs)


def decode(text: str) -> bytes:
    """Read what ``encode`` wrote.

    Raises
    ------
    ValueError
        For a sign that is not one of the 45, a sign left over, or three signs that no two bytes give.
    """
    data = bytearray()
    for at in range(0, len(text), 3):
        group = text[at : at + 3]
        if len(group) == 1 or not set(group) <= _PLACE.keys():
            raise ValueError(f"“{group}” is not base 45")
        value = sum(_PLACE[sign] * _BASE**power for power, sign in enumerate(group))
        length = len(group) - 1
        if value >= 256**length:
            raise ValueError(f"“{group}” stands for more than {length} bytes")
        data += value.to_bytes(length, "big")
    return bytes(data)
