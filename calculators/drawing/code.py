"""A link as a code to be read by a telephone's camera, drawn as SVG; long links stay text."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any
from xml.etree.ElementTree import Element, SubElement

from .elements import add, html

NEEDS = ("qrcodegen",)
# Printed 30 mm wide with its rim, a module of the largest allowed code is still 0.35 mm.
_LARGEST = 15
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
    size = code.get_size()
    whole = size + 2 * _RIM
    svg = Element(
        "svg", {"class": "code", "viewBox": f"0 0 {whole} {whole}", "role": "img", "shape-rendering": "crispEdges"}
    )
    SubElement(svg, "title").text = "Code of the link to these numbers"
    path = "".join(f"M{x + _RIM},{y + _RIM}h1v1h-1z" for y in range(size) for x in range(size) if code.get_module(x, y))
    SubElement(svg, "path", {"d": path})
    return svg


def respond(asked: Mapping[str, Any]) -> str:
    """Answer a request for the code of a link.

    Returns
    -------
    str
        JSON: ``code``, the HTML of the code with its words, or of the link as text when it is too long.
    """
    link = str(asked["code"])
    box = Element("div", {"class": "code-box"})
    svg = draw_code(link)
    if svg is None:
        add(box, "p", "code-words", "These numbers again, by this link:")
        add(box, "p", "code-link", link)
    else:
        box.append(svg)
        add(box, "p", "code-words", "These numbers again: point a camera here.")
    return json.dumps({"code": html(box)})
