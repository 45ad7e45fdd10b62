"""The practice batch in a page: moves in, HTML and SVG out."""

from __future__ import annotations

import json
from typing import Any
from xml.etree.ElementTree import Element

from ..drawing.elements import add, html
from . import faults
from .debrief_html import draw_debrief
from .key_html import draw_key
from .kinds import MODEL, Ask, Offer, Played, Scene
from .moves import ACTIONS
from .pieces import LEVELS, PIECES, read_level
from .play import play
from .run import clock
from .setting import as_text, read_setting


def respond(asked: dict[str, Any]) -> str:
    """Answer one request about a practice run.

    Parameters
    ----------
    asked : dict
        ``practice``: ``number``, ``level`` (``0`` to ``5``, ``1a`` to ``2g``), ``faults``, ``moves``, ``setting``
        (all as :func:`.play.play` has them; text or whole numbers, and whatever else stands there is taken as blank);
        ``debrief`` (true: a trainer reveals before the end); ``other`` (a second list of moves on the same number, for
        its course beside the first); ``names`` (faults whose code is wanted, for a trainer); ``key`` (true: the key).
        ``root``: the way to the root of the site, such as ``../../``.

    Returns
    -------
    str
        JSON: ``moves`` (the run as it was taken: keep this one, put the next move behind it with ``-``), ``ended``
        (blank, ``kiln``, ``piece``, ``stopped``, ``never`` or ``time``), ``say`` (the scene for a live region),
        ``places``: HTML by place: ``scene`` (with buttons), ``book``, ``debrief`` (blank until there is one);
        ``drawing`` (id of a drawing of the handbook, blank for none); ``left_out`` (what meant nothing);
        ``title``; ``code`` where ``names`` was asked; ``levels`` and ``pieces`` with their words.

    Notes
    -----
    In ``scene`` each button has ``data-move``. One that asks for a value has ``data-field="id"`` of an input that
    stands beside it, and ``data-how``: ``number`` (value follows the code) or ``expected`` (value follows ``~``; a
    second input ``data-sure`` may follow with ``_``). Hand-over stands in a form ``data-orders`` of check boxes, each
    with ``data-order`` and a number. In ``debrief`` the buttons to go back have ``data-moves``: the run up to there.
    """
    given = asked["practice"] if isinstance(asked["practice"], dict) else {}
    number = _whole(given.get("number"))
    level, wrong, moves, setting = (_text(given.get(name)) for name in ("level", "faults", "moves", "setting"))
    root = _text(asked.get("root"))
    played = play(number, level, wrong, moves, setting=setting, debrief=True if given.get("debrief") is True else None)
    rank, piece = read_level(level)
    beside = _beside(number, level, wrong, _text(given.get("other")), setting)
    reply: dict[str, object] = {
        "moves": played.moves,
        "ended": played.scene.ended,
        "say": f"{played.scene.clock}. {played.scene.place}. {played.scene.see}",
        "drawing": played.scene.drawing,
        "left_out": list(played.left_out),
        "title": piece.title if piece else LEVELS[rank],
        "setting": as_text(read_setting(setting)),
        "levels": list(LEVELS),
        "pieces": {one.letter: one.title for one in PIECES},
        "places": {
            "scene": html(draw_scene(played.scene, root)),
            "book": html(draw_book(played)),
            "debrief": html(draw_debrief(played, root, beside, piece)) if played.debrief else "",
        },
    }
    if given.get("key") is True:
        places = reply["places"]
        assert isinstance(places, dict)
        places["key"] = html(draw_key(number, level, wrong, read_setting(setting)))
    names = given.get("names")
    if isinstance(names, list):
        reply["code"] = faults.code_of(number, tuple(name for name in names if name in faults.NAMES))
    return json.dumps(reply)


def _beside(number: int, level: str, wrong: str, other: str, setting: str) -> Played | None:
    return play(number, level, wrong, other, setting=setting, debrief=True) if other else None


def _whole(value: object) -> int:
    text = str(value).strip() if isinstance(value, (int, str)) else ""
    return int(text) if text.isascii() and text.isdecimal() and len(text) <= 9 else 1


def _text(value: object) -> str:
    if isinstance(value, str):
        return value
    return str(value) if isinstance(value, int) and not isinstance(value, bool) else ""


def draw_scene(scene: Scene, root: str) -> Element:
    """The scene with its buttons."""
    box = Element("div", {"class": "practice-scene", "data-ended": scene.ended})
    add(box, "p", "practice-model", MODEL)
    add(box, "p", "practice-clock", f"{scene.clock} · {scene.place}")
    add(box, "p", "practice-see", scene.see)
    if scene.prompt:
        add(box, "p", "practice-prompt", scene.prompt)
    if scene.ended == "never":
        said = add(box, "p", "practice-emergency")
        add(said, "a", text="In an emergency: what to do", href=f"{root}safety/emergency/")
    if scene.page:
        said = add(box, "p", "practice-page")
        add(said, "a", text="What the page says", href=f"{root}{scene.page}/")
    if scene.offers:
        big = add(box, "div", "practice-big")
        more = Element("details", {"class": "practice-more"})
        add(more, "summary", text="More")
        for offer in scene.offers:
            _draw_offer(big if offer.big else more, offer)
        if not all(offer.big for offer in scene.offers):
            box.append(more)
    if scene.last:
        add(box, "p", "practice-last", f"Book, {clock(scene.last.minute)}: {scene.last.words}")
    return box


def _draw_offer(parent: Element, offer: Offer) -> None:
    row = add(parent, "div", "practice-offer")
    if offer.code == "ho":
        _draw_hand_over(row, offer.orders)
        return
    ask = offer.ask or offer.number
    words = f"{offer.words} ({offer.minutes} min)" if offer.minutes else offer.words
    if ask is None:
        add(row, "button", type="button", text=words, data_move=offer.code)
        return
    field = f"practice-{offer.code}"
    how = "expected" if offer.ask else "number"
    _draw_field(row, field, ask, "I expect" if offer.ask else "", offer.code)
    if offer.ask:
        sure = f"{field}-sure"
        add(row, "label", text=f"give or take, {ask.unit}", for_=sure)
        add(row, "input", id=sure, type="text", inputmode="decimal", data_sure=field, autocomplete="off")
    add(row, "button", type="button", text=words, data_move=offer.code, data_field=field, data_how=how)


def _draw_field(row: Element, field: str, ask: Ask, before: str, code: str) -> None:
    words = " ".join(part for part in (before, ask.what, f"({ask.low:g} to {ask.high:g} {ask.unit})") if part)
    add(row, "label", text=words, for_=field)
    optional = {} if code in ("wa", "ut", "pm") else {"data_optional": ""}
    if code == "ut":
        optional["data_clock"] = ""
    add(
        row, "input", id=field, type="text", inputmode="decimal", autocomplete="off",
        data_low=f"{ask.low:g}", data_high=f"{ask.high:g}", **optional,
    )  # fmt: skip


def _draw_hand_over(row: Element, orders: tuple[str, ...]) -> None:
    form = add(row, "fieldset", data_orders="")
    add(form, "legend", text="Hand over: the next shift does what you say, and no more")
    for code in orders:
        line = add(form, "p")
        add(line, "label", text=ACTIONS[code], for_=f"practice-order-{code}")
        add(line, "select", id=f"practice-order-{code}", data_order=code)
        choices = line[-1]
        for value, words in (("", "no"), ("a", "after hours"), ("o", "over °C")):
            add(choices, "option", value=value, text=words)
        add(line, "input", type="text", inputmode="decimal", data_order_number=code, aria_label="hours or °C")
    add(form, "button", type="button", text="Hand over (10 min)", data_move="ho", data_how="orders")


def draw_book(played: Played) -> Element:
    """All lines of the practice book."""
    box = Element("div", {"class": "practice-book"})
    add(box, "p", text="Practice book. Invented: not for the day-book, not for a sign-off.")
    if not played.book:
        add(box, "p", text="Nothing is written yet.")
        return box
    table = add(box, "table")
    row = add(add(table, "thead"), "tr")
    for heading in ("When", "Written", "By"):
        add(row, "th", text=heading, scope="col")
    body = add(table, "tbody")
    for line in played.book:
        row = add(body, "tr")
        for cell in (clock(line.minute), line.words, line.by):
            add(row, "td", text=cell)
    return box
