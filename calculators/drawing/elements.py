"""Elements of a page: children with their class and attributes, and an element as text."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement, tostring


def html(element: Element) -> str:
    """An element as HTML text."""
    return tostring(element, encoding="unicode", method="html")


def add(parent: Element, tag: str, style: str = "", text: str = "", **attributes: str) -> Element:
    """A new child; ``style`` is its class, and ``data_x`` becomes ``data-x``."""
    named = {"class": style} if style else {}
    named.update({key.strip("_").replace("_", "-"): value for key, value in attributes.items()})
    child = SubElement(parent, tag, named)
    if text:
        child.text = text
    return child
