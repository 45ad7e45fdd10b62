"""Texts as codes to be read by a telephone's camera, drawn as SVG: links on paper, and frames shown on a screen."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from itertools import groupby
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from .elements import add, html

NEEDS = ("qrcodegen",)
# Printed 30 mm wide with its rim, a module of the largest allowed code is still 0.35 mm.
_LARGEST = 15
_MASKS = 8  # ISO/IEC 18004 has so many
_RIM = 4  # modules that stay white around it, as ISO/IEC 18004 asks


def draw_code(link: str) -> Element | None:
    """The code of a link as an SVG element, or None when it would be too fine to read from paper.

    Parameters
    ----------
    link : str
        What the code says, up to 412 characters have a code.

    References
    ----------
    ISO/IEC 18004, QR code; by the library qrcodegen. Up to 15 % of it may be damaged (level M).
    """
    from qrcodegen import DataTooLongError, QrCode, QrSegment  # loaded only when something is printed

    try:
        code = QrCode.encode_segments(QrSegment.make_segments(link), QrCode.Ecc.MEDIUM, maxversion=_LARGEST)
    except DataTooLongError:
        return None
    return _drawn(code.get_size(), code.get_module, "Code of the link to these numbers")


def draw_frame(text: str, turn: int = 1) -> Element:
    """The code of one frame, to be shown on a screen.

    Parameters
    ----------
    text : str
        What the code says; its signs are those of the alphanumeric mode.
    turn : int, optional
        How often it is shown: each time it looks otherwise, so that a camera that cannot read it once does so later.

    Raises
    ------
    ValueError
        If it is longer than any code.

    Notes
    -----
    A screen is clean, so up to 7 % may be damaged (level L). No mask is chosen for its looks, which takes most time:
    what is shown is as good as random already.
    """
    from qrcodegen import QrCode, QrSegment

    code = QrCode.encode_segments(QrSegment.make_segments(text), QrCode.Ecc.LOW, mask=turn % _MASKS)
    return _drawn(code.get_size(), code.get_module, "A code for the other device’s camera")


def _drawn(size: int, is_dark: Callable[[int, int], bool], title: str) -> Element:
    whole = size + 2 * _RIM
    svg = Element(
        "svg", {"class": "code", "viewBox": f"0 0 {whole} {whole}", "role": "img", "shape-rendering": "crispEdges"}
    )
    SubElement(svg, "title").text = title
    SubElement(svg, "path", {"d": "".join(_runs(size, is_dark))})
    return svg


def _runs(size: int, is_dark: Callable[[int, int], bool]) -> Iterator[str]:
    """Each row of dark modules as one rectangle."""
    for y in range(size):
        for dark, run in groupby(range(size), lambda x, y=y: is_dark(x, y)):  # type: ignore[misc]
            if dark:
                first, *rest = run
                yield f"M{first + _RIM},{y + _RIM}h{len(rest) + 1}v1h-{len(rest) + 1}z"


def respond(asked: Mapping[str, Any]) -> str:
    """Answer a request for the code of a link, or for that of a frame, with ``frame`` the turn that it is shown in.

    Returns
    -------
    str
        JSON: ``code``, the HTML of the code with its words, or of the link as text when it is too long; of a frame the
        code alone.
    """
    link = str(asked["code"])
    if asked.get("frame"):
        return json.dumps({"code": html(draw_frame(link, int(asked["frame"])))})
    box = Element("div", {"class": "code-box"})
    svg = draw_code(link)
    if svg is None:
        add(box, "p", "code-words", "These numbers again, by this link:")
        add(box, "p", "code-link", link)
    else:
        box.append(svg)
        add(box, "p", "code-words", "These numbers again: point a camera here.")
    return json.dumps({"code": html(box)})
