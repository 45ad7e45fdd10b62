"""The forms of the day-book, drawn at build: one for each kind of entry."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from ... import __version__
from ...drawing.elements import add
from ...drawing.form import draw_folded, draw_question
from ..lines.kinds import KINDS, LONGEST_BATCH, LONGEST_REMARK, LONGEST_WHO, WITHDRAWN, EntryKind
from .view import draw_head

_IN_VIEW = 2
"""So many questions that may stay blank are shown with the others."""


def _role(kind: EntryKind) -> str:
    """What the page does with a kind beside writing it: it ``begins`` a batch, ``strikes`` or only ``says`` something.

    Kinds that the page writes ``by-itself`` are not offered; the others have no role.
    """
    if kind.id == WITHDRAWN:
        return "strikes"
    roles = (("begins", kind.begins), ("says", kind.says), ("by-itself", not kind.by_hand))
    return next((role for role, has in roles if has), "")


def _common(parent: Element, name: str, label: str, **values: str) -> None:
    box = add(parent, "div", "field", data_common=name)
    add(box, "label", text=label, for_=f"entry-common-{name}")
    add(add(box, "div", "box"), "input", id=f"entry-common-{name}", autocomplete="off", **values)


def _entry_form(parent: Element, kind: EntryKind) -> None:
    form = add(
        parent,
        "form",
        "sheet-form entry-form",
        data_entry_kind=kind.id,
        data_label=kind.label,
        data_role=_role(kind),
        data_drafted="yes" if kind.drafted else "no",
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
    """The forms of all kinds, in their order, hidden until the page's script shows one.

    With them: the fields that every line has, and the head of the table that lines stand in.
    """
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
    _common(box, "batch", "Batch number", type="text", maxlength=str(LONGEST_BATCH))
    _common(box, "at", "Done at", type="datetime-local")
    _common(box, "who", "Who", type="text", maxlength=str(LONGEST_WHO))
    _common(box, "remark", "Remark, may stay blank", type="text", maxlength=str(LONGEST_REMARK))
    draw_head(add(add(box, "template", data_lines=""), "table", "book-lines"), tools=True)
    for kind in KINDS:
        _entry_form(box, kind)
    return box
