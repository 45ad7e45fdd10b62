"""The chits of a steep over its hours: chart, table, and a count that does not fit."""

from __future__ import annotations

from datetime import datetime
from math import inf
from typing import NamedTuple

from ..asking.declare import Axis, Band, Chart, Dots, Heading, Line, Listing, Mark, Note, Rows, Shade, Value
from ..asking.figures import fixed, plain_number
from ..models.living.steep_life import Chits, Life, Span
from ..models.steep.course import Steep
from ..rules.limit import edge
from ..rules.limits.steeping import REST
from ..rules.steep_order import MOST_H
from . import within
from .limits import at_edge
from .steep import OF_TWENTY, clock_after

BESIDE = 3.0
"""How far beside what lots show a count may lie before it is spoken of [points]: our convention."""
MOST_REST_H, WATCHED_REST_H = edge(REST.stop_high), edge(REST.accept_high)

STAGES = Listing(
    "stages",
    "Stage by stage",
    (
        Heading("stage", "Stage", kind="text"),
        Heading("hours", "Length", "h", 1, within=within.steep_hours("stages")),
        Heading("stage_temp_c", "Water, or warmest grain", "C", 1, within=within.grain_temp("stages")),
        Heading("ends", "Ends", kind="clock"),
        Heading("hours_at_end", "Since the start", "h", 1, within=within.steep_hours("stages")),
        Heading("net", "Inside", "%", 1, within=within.moisture("stages")),
        Heading("chitted", "Chitted", "%", 0, within=within.part("stages")),
        Heading("low", "from", "%", 0, within=within.part("stages")),
        Heading("high", "to", "%", 0, within=within.part("stages")),
    ),
)


class Steeped(NamedTuple):
    """A steep with its life: the hours of its own stages, of the rest that follows, and when it began."""

    life: Life
    lengths: list[float]
    rest_h: float
    start: datetime | None

    @property
    def end_h(self) -> float:
        """Hours of the stages as typed [h]."""
        return sum(self.lengths)


def stage_rows(life: Life, course: Steep, start: datetime | None) -> Rows:
    """What holds at the end of each stage as typed."""
    rows: list[tuple[Value | None, ...]] = []
    warm = {rest.number: rest.warmest_c.value for rest in life.warmest}
    for place, (end, stage) in enumerate(zip(course.ends, course.steeping.stages, strict=True)):
        temp = stage.water_temp_c if end.wet else warm.get(place // 2 + 1, stage.water_temp_c)
        name = f"{place + 1} {'immersion' if end.wet else 'air rest'}"
        clock = clock_after(start, end.hours) if start else None
        shares = [100.0 * one for one in life.share_at(end.hours)]
        rows.append((name, stage.hours, temp, clock, end.hours, end.net, *shares))
    return Rows("stages", rows)


def chart(life: Life, course: Steep, wanted: float, aim: str, count: Chits | None) -> Chart:
    """The share chitted over the hours, with its band, and the count."""
    hours = [state.hour for state in life.states]
    shares = [[100.0 * one for one in life.share_at(hour)] for hour in hours[1:]]
    shares = [[0.0, 0.0, 0.0], *shares]
    shades, begins = [], 0.0
    for end in course.ends:
        stop = begins + MOST_H if end.wet else end.hours
        shades.append(Shade("wet" if end.wet else "air rest", begins, min(stop, end.hours)))
        if stop < end.hours:
            shades.append(Shade("over the stop", stop, end.hours, past=True))
        begins = end.hours
    if hours[-1] > begins:
        shades.append(Shade("rest after them", begins, hours[-1]))
    at_end = life.share_at(course.hours)
    dots = (Dots("counted", [count.hour], [100.0 * count.chitted / count.corns]),) if count else ()
    return Chart(
        "chitted",
        "Chits over the hours",
        f"By the end of the stages, {plain_number(round(course.hours, 1))} h, {fixed(100.0 * at_end.value, 0)} % have "
        f"chitted; {aim} are wanted. The band is where {OF_TWENTY} lots are expected.",
        Axis("Hours from the start", "h", 0.0, hours[-1], 1),
        Axis("Chitted", "%", 0.0, 100.0, 0),
        lines=(Line("chitted", hours, [one[0] for one in shares]),),
        bands=(Band("band of doubt", hours, [one[1] for one in shares], [one[2] for one in shares]),),
        shades=tuple(shades),
        marks=(Mark(f"wanted {plain_number(wanted)} %", wanted),),
        dots=dots,
    )


def late_note(there: Span | None, aim: str) -> list[Note]:
    """Where a late lot does not come to it within the longest rest, that, with the soonest hour."""
    if there is None or there.high < inf:
        return []
    return [
        Note(
            "notice",
            f"By the typical barley {aim} come after {fixed(there.value, 0)} h; the soonest is "
            f"{fixed(there.low, 0)} h. At the late end of the doubt they do not come within the longest rest: count.",
        )
    ]


def contradicts(before: Life, count: Chits) -> list[Note]:
    """A notice where a count lies outside what any usual barley shows by then."""
    value, low, high = (100.0 * one for one in before.share_at(count.hour))
    share = 100.0 * count.chitted / count.corns
    if low - BESIDE <= share <= high + BESIDE:
        return []
    return [
        Note(
            "notice",
            f"{count.chitted} of {count.corns} at {plain_number(count.hour)} h is outside what 19 of 20 lots show by "
            f"then, {fixed(low, 0)} to {fixed(high, 0)} % ({fixed(value, 0)} % typical). Count again, and check the "
            "hours and the stages.",
        )
    ]


def notes_of(steeped: Steeped, wanted: float, word: str, grows: float, before: Life, count: Chits | None) -> list[Note]:
    """What is said of the word, and of the count or of the want of one."""
    notes = []
    end = steeped.end_h
    if word == "never":
        notes.append(
            Note(
                "notice",
                f"{plain_number(wanted)} % never chit: by the test {plain_number(grows)} % grow. Dormant corns lie on. "
                "Ask before this barley is steeped or cast: [[page:procedures/germination-test|germination test]].",
            )
        )
    elif word == "too-late":
        notes.append(
            Note(
                "notice",
                f"Not within {plain_number(steeped.rest_h)} h of rest after the stages as typed. Cold, dormant or "
                "drowned grain? Look at the tests, and ask. Longer rests or warmer water bring it sooner.",
            )
        )
    elif word == "rest-on":
        rest = "The rest after them" if len(steeped.lengths) % 2 else "Their last rest"
        notes.append(
            Note(
                "remark",
                f"{rest} goes on till then. One of more than {at_edge(REST, 'accept_high')} is watched, and "
                f"{at_edge(REST, 'stop_high')} is the stop.",
            )
        )
    if count is not None:
        notes += contradicts(before, count)
    else:
        notes.append(
            Note(
                "remark",
                "Without a count of this batch the band is wide: lots differ by a factor of 1.8 either way. Count 200 "
                f"corns in the rest before the last dip, about {plain_number(round(0.75 * end))} h after the start, "
                "and type the count in.",
            )
        )
    return notes
