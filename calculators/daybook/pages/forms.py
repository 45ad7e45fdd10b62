"""The forms of the day-book, drawn at build: one for each kind of entry."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from ... import __version__
from ...asking.declare import Number
from ...asking.units import step_of
from ...drawing.elements import add
from ...drawing.form import draw_folded, draw_question
from ...drawing.tally import draw_tally
from ...house import here
from ..lines.kinds import KINDS, LONGEST_BATCH, LONGEST_REMARK, LONGEST_WHO, WITHDRAWN, EntryKind
from .view import draw_head

_NAMED = {"gas_meter": "meter", "barley": "barley"}
"""Questions answered by text for which a house may have names, with its section of them."""

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


def _done_at(parent: Element) -> None:
    """When it was done: in words, in the one style; by the clock, five minutes earlier, or any other time."""
    box = add(parent, "div", "field", data_common="at")
    add(box, "label", text="Done at", for_="entry-common-at")
    add(box, "p", "said-time", data_said_time="")
    place = add(box, "div", "box")
    add(place, "button", "now", type="button", data_action="entry-now", text="Now", aria_label="Done at: now")
    earlier = "Done at: 5 minutes earlier"
    add(place, "button", "now", type="button", data_action="earlier", text="−5 min", aria_label=earlier)
    other = add(box, "details", "other-time")
    add(other, "summary", text="Another time")
    add(other, "input", id="entry-common-at", autocomplete="off", type="datetime-local")


def _common(parent: Element, name: str, label: str, **values: str) -> None:
    box = add(parent, "div", "field", data_common=name)
    add(box, "label", text=label, for_=f"entry-common-{name}")
    place = add(box, "div", "box")
    add(place, "input", id=f"entry-common-{name}", autocomplete="off", **values)


def _entry_form(parent: Element, kind: EntryKind) -> None:
    form = add(
        parent,
        "form",
        "sheet-form entry-form",
        data_entry_kind=kind.id,
        data_label=kind.label,
        data_role=_role(kind),
        data_drafted="yes" if kind.drafted else "no",
        data_usual=" ".join(kind.usual),
        data_anew=" ".join(kind.anew),
        novalidate="",
        autocomplete="off",
        aria_label=kind.label,
    )
    add(form, "p", "hint", kind.hint)
    prefix = f"entry-{kind.id}"
    if kind.usual:
        offers = add(form, "div", "sheet-buttons begin-from", data_begin_from="")
        add(offers, "button", type="button", data_action="as-last", text="As the last batch", hidden="")
        add(offers, "button", type="button", data_action="as-usual", text="Our usual", hidden="")
    for tally in kind.tallies:
        draw_tally(form, tally, shown=True)
    later = [one for one in kind.questions if one.optional and not one.in_view and one.id not in kind.first]
    if len(later) <= _IN_VIEW:
        later = []
    for question in sorted(kind.questions, key=lambda one: one.id not in kind.first):
        if question not in later:
            draw_question(form, question, prefix)
    draw_folded(form, later, prefix, "More")
    if kind.usual:
        add(form, "button", type="button", data_action="keep-usual", text="Keep as our usual")
    _steppers(form, kind)
    _names(form, kind, prefix)


def _names(form: Element, kind: EntryKind, prefix: str) -> None:
    """What this house has, to be chosen by name in a box or typed otherwise: names, and where a batch begins numbers.

    Nothing is offered where something is read: what is usual is no reading.
    """
    found = {name: [(one, "") for one in here.names(section)] for name, section in _NAMED.items()}
    found |= here.OFFERED if kind.begins else {}
    for name, options in found.items():
        field = next((one for one in form.iter("input") if one.get("name") == name), None)
        if options and field is not None and kind.question(name) is not None:
            listed = add(form, "datalist", id=f"{prefix}-{name}-here")
            for value, label in options:
                add(listed, "option", value=value, **({"label": label} if label else {}))
            field.set("list", f"{prefix}-{name}-here")


def _steppers(form: Element, kind: EntryKind) -> None:
    """Put minus and plus beside the box of each number: for gloves, from the last reading on."""
    for field in form.iter():
        question = kind.question(field.get("data-question", ""))
        if not isinstance(question, Number) or field.get("data-kind") != "number":
            continue
        box = next(part for part in field if part.get("class") == "box")
        step = step_of(question)
        for at, (action, sign, words) in enumerate((("less", "−", "less"), ("more", "+", "more"))):
            label = f"{question.label}: {step} {words}"
            button = add(
                box, "button", "step", type="button", data_action=action, data_step=step, aria_label=label, text=sign
            )
            if at == 0:
                box.remove(button)
                box.insert(0, button)


def draw_forms() -> Element:
    """The forms of all kinds, in their order, until the page's script shows one.

    With them: the fields that every line has, and the head of the table that lines stand in. The forms stand in a
    template: with hundreds of fields in the page a browser looks for names and addresses to fill in before it draws.
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
    _done_at(box)
    _common(box, "who", "Who", type="text", maxlength=str(LONGEST_WHO))
    _common(box, "remark", "Remark, may stay blank", type="text", maxlength=str(LONGEST_REMARK))
    draw_head(add(add(box, "template", data_lines=""), "table", "book-lines"), tools=True)
    forms = add(box, "template", data_kinds="")
    for kind in KINDS:
        _entry_form(forms, kind)
    return box
