"""What has left the plan, what is done at once, and the ways through the rest of a batch, as HTML.

The faults with their orders stand in the page from the build on: they need no answer. The ways follow from the batch.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Any, NamedTuple
from xml.etree.ElementTree import Element

from ...asking.figures import fixed, plain_number
from ...asking.reading import Problem, read
from ...drawing.elements import add
from ...drawing.links import fill
from ...drawing.results import draw_note, typed_words
from ...rules.lines import Line
from ...rules.replan import bed as plan_bed
from ...rules.replan import steep as plan_steep
from ...rules.replan.bed import BedNow
from ...rules.replan.faults import ASKS_HOURS, FAULTS, HOURS_TAKEN, Fault, Place, asked_by
from ...rules.replan.steep_grid import SteepNow
from ...rules.replan.ways import Way, Ways
from ...sheets import find_sheet
from ...words.limits import said
from ...words.replan import (
    HOURS_ASKED,
    LABELS,
    ORDERS,
    cost_words,
    move_words,
    place_of_order,
    sample_words,
    standing_words,
    tell_words,
    way_title,
)
from ..batch.at_hand import House
from ..batch.batch import Batch
from ..batch.course import Course
from ..batch.lives import grain_read
from ..lines.kinds import FLOOR, question_of
from ..next.lying import lying_of
from ..next.off_plan import bed_now, steep_now
from ..next.open_faults import faults_at, place_of
from ..next.step import Wall

Reply = dict[str, Any]

KEPT = (
    "Once the way is written, the next step names its warmth and its hour of loading. When to turn and to sprinkle it "
    "says by what is read then, not by the hours above."
)
BY = "By the living model and the table of limits. The grain decides: weigh, count, smell."
STANDS = (
    "By the living model and the table of limits. What stands after the hour at which it should run holds only once it "
    "does run, and those who may say so have said so. Until then nobody samples, smells or wets it."
)


def draw_faults(root: str | None) -> Element:
    """Everything that can leave the plan: a button each, and what is done at once, before anything is reckoned.

    Parameters
    ----------
    root : str or None
        Relative address of the site's root; None at the build.
    """
    box = Element("details", {"class": "what-now", "data-what-now": "", "hidden": ""})
    add(box, "summary", text="What now? Something has left the plan")
    group = add(box, "div", "fault-list", role="group", aria_label="What has left the plan")
    for fault, places in FAULTS.items():
        add(group, "button", type="button", data_fault=fault, data_places=" ".join(places), text=LABELS[fault])
    for fault in FAULTS:
        _orders(box, fault, root)
    add(box, "div", data_what_now_ways="", aria_live="polite")
    return box


def _orders(box: Element, fault: Fault, root: str | None) -> None:
    part = add(box, "div", "fault-orders", data_fault_orders=fault, hidden="")
    add(part, "h3", text=f"{LABELS[fault]}: at once")
    orders = ORDERS[fault]
    notes = add(part, "div", data_own_first="")
    for note in orders.notes:
        draw_note(notes, note, root)
        _at(notes[-1], place_of_order(note))
    acts = add(part, "ul", "fault-acts", data_own_first="")
    for words in orders.acts:
        act = add(acts, "li")
        fill(act, words, root)
        _at(act, place_of_order(words))
    links = "; ".join(f"[[page:{page}]]" for page in orders.pages)
    fill(add(part, "p", "remark"), f"What it is and why: {links}.", root)
    if fault in ASKS_HOURS:
        _hours(part, fault)
    row = add(part, "div", "sheet-buttons")
    add(row, "button", type="button", data_action="show-ways", text="Show the ways from here")
    add(row, "button", type="button", data_action="write-fault", text="Note that it happened")


def _at(one: Element, places: Sequence[Place]) -> None:
    if places:
        one.set("data-at", " ".join(places))


def _hours(part: Element, fault: Fault) -> None:
    name = f"fault-hours-{fault}"
    fields = [(name, f"{HOURS_ASKED[fault]} (h)", "hours", HOURS_TAKEN[fault])]
    if fault == "away":
        fields.insert(0, ("fault-begins", "Nobody is there from, in (h)", "begins", 0.0))
    for at, label, what, value in fields:
        field = add(part, "div", "field")
        add(field, "label", text=label, for_=at)
        place = add(field, "div", "box")
        for sign, step in (("−", "-1"), ("", ""), ("+", "1")):
            if not sign:
                add(
                    place, "input", id=at, type="text", inputmode="decimal", autocomplete="off",
                    value=plain_number(value), **{"data-fault-number": what},
                )  # fmt: skip
            else:
                words = f"{label}: {'less' if step == '-1' else 'more'}"
                add(
                    place, "button", "step", type="button", data_action="fault-step", data_step=step,
                    aria_label=words, text=sign,
                )  # fmt: skip


def _number(asked: Reply, name: str, taken: float) -> float | Problem:
    typed = str(asked.get(name) or "").strip()
    if not typed:
        return taken
    if name == "begins" and typed in ("0", "0.0"):
        return 0.0
    value, problems = read(question_of("fault_hours"), typed)
    return problems[0] if problems else float(value)  # type: ignore[arg-type]


def ways_parts(batch: Batch, course: Course | str, house: House, wall: Wall, asked: Reply) -> list[Element]:
    """The ways through the rest of a batch from a fault on.

    Parameters
    ----------
    batch : Batch
        A batch at work.
    course : Course or str
        Its steep, or why there is none.
    house : House
        What the house's other batches say.
    wall : Wall
        The time now.
    asked : dict
        ``fault``, a word of ``FAULTS``; ``hours`` and ``begins`` as typed.

    Returns
    -------
    list of Element
        A sentence where nothing can be planned.
    """
    place = place_of(batch)
    fault = asked.get("fault")
    if place is None or fault not in faults_at(place):
        return [_remark("The batch is not where this can be: nothing is planned.")]
    hours, begins = (
        _number(asked, name, taken) for name, taken in (("hours", HOURS_TAKEN.get(fault, 0.0)), ("begins", 0.0))
    )
    for one in (hours, begins):
        if isinstance(one, Problem):
            return [_remark(one.text)]
    assert isinstance(hours, float) and isinstance(begins, float)
    now: SteepNow | BedNow | str
    now = steep_now(batch, course, wall) if place in ("wet", "rest") else bed_now(batch, course, house, wall)
    if isinstance(now, str):
        return [_remark(f"{now} What is done at once stands above; the rest is for the shift lead.")]
    moment = wall.now or batch.standing[-1].utc
    rested = now.elapsed_h if isinstance(now, SteepNow) and not now.wet else 0.0
    asks = asked_by(fault, hours=hours, begins_h=begins, rested_h=rested)
    found = plan_steep.ways_of(now, asks) if isinstance(now, SteepNow) else plan_bed.ways_of(now, asks)
    unsampled = place in ("floor", "drum") and lying_of(batch, wall).moisture is None
    about = _About(fault, place, moment, wall, str(asked.get("root") or ""), unsampled, _fan_figures(batch, moment))
    return _drawn(found, about, hours)


class _About(NamedTuple):
    """What ways are drawn for: the fault, where the batch is, the clock, and what the book knows of the grain."""

    fault: Fault
    place: Place
    moment: datetime
    wall: Wall
    root: str
    unsampled: bool  # no moisture was found since the cast
    fan_figures: tuple[str, ...]


def _fan_figures(batch: Batch, moment: datetime) -> tuple[str, ...]:
    """What the sheet on grain with its fan stopped asks and the book knows, as it is typed there.

    The day is the one that has begun: grain further on breathes more, so the figure errs to the urgent side.
    """
    sheet = find_sheet("fan-stopped")
    day = 0.0
    if batch.cast is not None:
        day = min(1.0 + (moment - batch.cast.utc).days, 10.0)
        spells = [one for one in batch.of("bed") if one.utc >= batch.cast.utc]
        read = [value for one in spells[-1:] for name in ("bottom_c", "top_c") if (value := batch.value(one, name))]
        where = "floor" if batch.vessel == FLOOR else "box" if batch.in_box else "drum"
    else:
        read = [one.warmest_c for one in grain_read(batch, batch.spells[-1])[-1:]]
        where = "rest"
    known = {
        "place": where,
        "barley_moisture": batch.number("barley_moisture"),
        "day": day,
        "grain_temp_c": max(read) if read else None,
    }
    asked = [(sheet.question(name), value) for name, value in known.items() if value is not None]
    return tuple(f"{question.label}: {typed_words(question, value)}" for question, value in asked if question)


def _remark(words: str) -> Element:
    part = Element("p", {"class": "remark"})
    part.text = words
    return part


def _drawn(found: Ways, about: _About, hours: float) -> list[Element]:
    fault, place, root = about.fault, about.place, about.root
    parts: list[Element] = []
    for line in _once(found.already):
        told = Element("p", {"class": "outside"})
        told.text = f"Past a stop already: {said(line)}{' No way below takes it further.' if found.ways else ''}"
        parts.append(told)
    if found.fan_off_h is not None:
        standing = Element("p", {"class": "remark"})
        fill(standing, standing_words(found.fan_off_h, place, about.fan_figures), root)
        parts.append(standing)
    if fault in ASKS_HOURS:
        taken = f"{HOURS_ASKED[fault]} {plain_number(hours)} h: a guess, until those who can say it have said it."
        parts.append(_remark(taken))
    if not found.ways:
        none = Element("p", {"class": "outside"})
        none.text = "No way from here keeps within the limits. Do what stands above, and tell the shift lead now."
        return [*parts, none]
    listed = Element("ol", {"class": "ways"})
    for way in found.ways:
        _way(listed, way, about)
    last = STANDS if fault == "blower" else BY
    kept = [_remark(KEPT)] if place in ("floor", "drum") else []
    return [*parts, listed, *kept, _remark(last)]


def _once(lines: tuple[Line, ...]) -> list[Line]:
    return list({line.rule: line for line in lines}.values())


def _way(listed: Element, way: Way, about: _About) -> None:
    fault, place, moment, wall, root = about.fault, about.place, about.moment, about.wall, about.root
    item = add(listed, "li", data_way=" ".join(way.words))
    add(item, "h4", text=way_title(way))
    moves = add(item, "ul", "way-moves")
    if way.hold_c is not None:
        add(moves, "li", text=f"From now on keep it at {plain_number(way.hold_c)} °C")
    if way.suction_m3_h_t is not None:
        drawn = plain_number(way.suction_m3_h_t)
        add(moves, "li", text=f"In each rest suction of {drawn} m³/h for each tonne, or more")
    for move in way.moves:
        at = "Now" if move.hour == 0.0 else wall.time(moment + timedelta(hours=move.hour))
        first = sample_words(move) if about.unsampled else ""
        add(moves, "li", text=f"{at}: {first}{move_words(move)}")
    costs = add(item, "ul", "way-costs")
    for words in cost_words(way.cost, place):
        fill(add(costs, "li"), words, root)
    if way.watched:
        add(item, "p", "remark", text="Watched, not stopped: " + " ".join(said(line) for line in _once(way.watched)))
    add(item, "p", text=f"To be told: {', '.join(tell_words(way, fault, place))}.")
    values = json.dumps(_values(way, moment, wall))
    add(item, "button", type="button", data_action="take-way", data_values=values, text="Take this way")


def _values(way: Way, moment: datetime, wall: Wall) -> dict[str, Any]:
    """What a line about it says, as it would be typed."""
    values: dict[str, Any] = {"way": way.words[0]}
    if way.stages:
        values["stages"] = [[fixed(stage.hours, 2), fixed(stage.water_temp_c, 1)] for stage in way.stages]
    if way.hold_c is not None:
        values["hold_c"] = plain_number(way.hold_c)
        load = wall.local(moment + timedelta(hours=way.moves[-1].hour))
        values["load_at"] = f"{load:%Y-%m-%d %H:%M}"
    return values
