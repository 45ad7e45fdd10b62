"""The forms of the day-book, drawn at build: one for each kind of entry."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from .. import __version__
from ..form import add, draw_folded, draw_question
from .kinds import KINDS, EntryKind

_IN_VIEW = 2
"""So many questions that may stay blank are shown with the others."""


def _entry_form(parent: Element, kind: EntryKind) -> None:
    form = add(
        parent,
        "form",
        "sheet-form entry-form",
        data_entry_kind=kind.id,
        data_label=kind.label,
        novalidate="",
        autocomplete="off",
        aria_label=kind.label,
    )
    add(form, "p", "hint", kind.hint)
    prefix = f"entry-{kind.id}"
    later = [question for question in kind.questions if question.optional and not question.in_view]
    if len(later) <= _IN_VIEW:
        later = []
    for question in kind.questions:
        if question not in later:
            draw_question(form, question, prefix)
    draw_folded(form, later, prefix, "More")


def draw_forms() -> Element:
    """The forms of all kinds, in their order, hidden until the page's script shows one."""
    box = Element(
        "div",
        {
            "class": "entry-forms",
            "data-entry-forms": "",
            "data-version": __version__,
            "data-search-exclude": "",
            "hidden": "",
        },
    )
    for kind in KINDS:
        _entry_form(box, kind)
    return box
