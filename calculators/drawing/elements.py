"""Elements of a page: children with their class and attributes, and an element as text."""

from __future__ import annotations

from xml.etree.ElementTree import Element, SubElement, tostring

from ..asking.figures import minus_signs

_AS_TYPED = {"code", "pre", "kbd", "textarea", "script", "style"}
"""What is shown as it is typed: no sign in it is changed."""


def html(element: Element) -> str:
    """An element as HTML text, with minus signs before what is less than zero.

    Values of boxes and other attributes stay as they are typed; what is read out in place of a picture does not.
    """
    _set_signs(element)
    return tostring(element, encoding="unicode", method="html")


def _set_signs(element: Element) -> None:
    for one in element.iter():
        if one.text and one.tag not in _AS_TYPED:
            one.text = minus_signs(one.text)
        if one.tail:
            one.tail = minus_signs(one.tail)
        if label := one.get("aria-label"):
            one.set("aria-label", minus_signs(label))


def add(parent: Element, tag: str, style: str = "", text: str = "", **attributes: str) -> Element:
    """A new child; ``style`` is its class, and ``data_x`` becomes ``data-x``."""
    named = {"class": style} if style else {}
    named.update({key.strip("_").replace("_", "-"): value for key, value in attributes.items()})
    child = SubElement(parent, tag, named)
    if text:
        child.text = text
    return child
