"""The key of a run for the trainer: what is wrong, what tempts, what the good hand did and why, what was hidden."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from ..drawing.elements import add
from .debrief import good_run
from .debrief_html import draw_hidden
from .faults import words_of
from .hidden import described
from .moves import read_move
from .opening import opened
from .pieces import read_level
from .play import words_of_step
from .run import clock
from .setting import Setting
from .tempts import BY_NAME
from .turning_points import DONE


def draw_key(number: int, level: str, faults: str, setting: Setting) -> Element:
    """Give the key.

    Parameters
    ----------
    number, level, faults
        As for :func:`.play.play`.
    setting : Setting
        Season, vessel and the house's limits.
    """
    box = Element("div", {"class": "practice-key-of"})
    run = opened(number, level, faults, setting)
    if read_level(level)[0] == 0:
        add(box, "p", text="The good hand runs it: there is nothing to choose.")
    add(box, "h3", text="What may tempt")
    tempting = add(box, "ul")
    for name in run.tempts:
        add(tempting, "li", text=f"{BY_NAME[name].see} Right: {BY_NAME[name].right.lower()}.")
    if not run.tempts:
        add(tempting, "li", text="Nothing, unless you bring it in.")
    good, steps = good_run(number, level, faults, setting)
    add(box, "h3", text="What the good hand did")
    table = add(box, "table")
    row = add(add(table, "thead"), "tr")
    for heading in ("When", "It did", "It thought"):
        add(row, "th", text=heading, scope="col")
    body = add(table, "tbody")
    for minute, step in zip(good.taken_at, steps, strict=True):
        move = read_move(step.move)
        if move is None or move.code not in (*DONE, "ho"):
            continue
        row = add(body, "tr")
        for cell in (clock(minute), words_of_step(step), step.why):
            add(row, "td", text=cell)
    draw_hidden(box, words_of(run.faults, run.planned_water_c), described(run.world.this))
    return box
