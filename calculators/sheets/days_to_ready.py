"""Days until a batch may be ready: when to begin testing it."""

from __future__ import annotations

from datetime import datetime, timedelta

from ..asking.declare import (
    Answer,
    AskAgain,
    Belongs,
    Clock,
    Either,
    Found,
    Note,
    Number,
    Outcome,
    Sheet,
    Table,
)
from ..asking.figures import carried, fixed, plain_number
from ..models.bounds import BED_MOISTURE
from ..models.living import pace as clocks
from ..models.living import ready
from ..models.living.maths import FLOATS
from ..models.living.ready import days_left, pace, share_done
from ..rules.conventions import READY_AT_C, READY_DAYS
from ..rules.limit import edge
from ..rules.limits import floor_germination as edges
from ..rules.limits.readiness import READY
from ..rules.lines import passed
from ..words import within
from ..words.days_chart import growth_chart
from ..words.limits import limit_notes, span
from ..words.malts import beside, days_of
from ..words.questions.malts import malt as asked_malt
from ..words.questions.ready import reference_days, reference_temp_c
from ..words.questions.shared import number

_TEST_EARLY_DAYS = 1.0
_MOISTURE_HINT = "Of a sample, read the quick way. A dry bed slows the days to come."
_FAR_K = 6.0
_WHAT_TO_DO = (
    "What to do: [[page:procedures/floor-germination|on the floor]], [[page:procedures/drum-germination|in the drum]], "
    "[[page:procedures/box-germination|in the box]]."
)

bed_temp_c = number(
    "bed_temp_c",
    "Bed temperature",
    "C",
    ready.BED_C,
    "Mean of the whole time on the floor, in the drum or in the box.",
    example="14",
)
temperatures = Table(
    "temperatures",
    "Temperatures by day",
    (
        Number("day", "Day", "", 1, 40, example="1", whole=True),
        number("temp", "Bed temperature", "C", ready.BED_C, "", example="14"),
    ),
    min_rows=1,
    max_rows=24,
    hint="The mean of each day so far. A day left out counts as the one before it.",
)
days_done = number(
    "days_done",
    "Days done",
    "days",
    ready.DAYS,
    "Since the cast, with one bed temperature. With a table it follows from the last day.",
    default="0",
)
moisture = number("moisture", "Moisture of the bed", "%", BED_MOISTURE, _MOISTURE_HINT, example="44.5")._replace(
    optional=True
)
q10 = number(
    "q10",
    "Pace for 10 K more",
    "",
    ready.Q10,
    f"{plain_number(clocks.GROWTH_Q10)} means: 10 K warmer is so many times as fast.",
    default=plain_number(clocks.GROWTH_Q10),
    source="2 to 2.5 from memory; Thomson’s floors give 1.9 to 2.8",
)
now = Clock("now", "Time now", "Then the hour to start testing is given as a clock time.", optional=True, in_view=True)


def work(
    *,
    bed_temp_c: float | None,
    temperatures: tuple[tuple[float, float], ...] | None,
    days_done: float,
    moisture: float | None,
    reference_temp_c: float | None,
    reference_days: float | None,
    malt: str | None,
    q10: float,
    now: datetime | None,
) -> Outcome:
    """Run the growth clock through the days, and see how many corns it brings to three quarters."""
    own = reference_days is not None
    if own != (reference_temp_c is not None):
        missing = "reference_temp_c" if own else "reference_days"
        raise AskAgain(missing, "your days and their temperature go together. Give both, or leave both blank.")
    from_table: tuple[Note, ...] = ()
    days_doubt = ready.OWN_DAYS_DOUBT if own else ready.TYPICAL_DAYS_DOUBT
    if reference_temp_c is None or reference_days is None:
        reference_temp_c, reference_days = READY_AT_C, READY_DAYS
        if malt is not None:
            reference_temp_c, reference_days, days_doubt, from_table = days_of(malt, days_doubt)
    else:
        from_table = tuple(beside(malt, "days", "days", "Your usual", reference_days))
    if temperatures:
        temps = _by_day(temperatures)
        if days_done not in (0.0, float(len(temps))):
            raise AskAgain(
                "days_done",
                f"{plain_number(days_done)} days do not fit the table, which ends on day {len(temps)}. "
                "Type 0: the table says how many days are done.",
            )
    else:
        assert bed_temp_c is not None
        whole, part = int(days_done), days_done - int(days_done)
        temps = [bed_temp_c] * whole
    last = temps[-1] if temperatures else float(bed_temp_c or 0.0)

    def run(pace10: float, days: float) -> tuple[float, float]:
        house = {"reference_temp_c": reference_temp_c, "reference_days": days, "q10": pace10}
        done = share_done(temps_by_day=temps, **house)
        if not temperatures and part:
            done += part * pace(temp_c=last, reference_temp_c=reference_temp_c, q10=pace10) / days
        return done, days_left(share=done, temp_c=last, moisture=moisture, **house)

    done, left = run(q10, reference_days)
    doubts = [
        run(
            min(max(q10 + step, ready.Q10.low), ready.Q10.high),
            min(max(reference_days * (1 + off), ready.REFERENCE_DAYS.low), ready.REFERENCE_DAYS.high),
        )
        for step in (-ready.Q10_DOUBT, 0.0, ready.Q10_DOUBT)
        for off in (-days_doubt, 0.0, days_doubt)
    ]
    soonest, latest = min(d[1] for d in doubts), max(d[1] for d in doubts)
    least, most = min(d[0] for d in doubts), max(d[0] for d in doubts)
    test_from = max(0.0, soonest - _TEST_EARLY_DAYS) * 24.0
    elapsed = float(len(temps)) if temperatures else days_done
    here = pace(temp_c=last, reference_temp_c=reference_temp_c, q10=q10)
    slower = float(clocks.water_pace(FLOATS, moisture)) if moisture is not None else 1.0
    wet = ""
    if slower != 1.0:
        wet = f"; at {plain_number(moisture or 0)} %: × {carried(slower, 4)} = {carried(here * slower, 4)}"
    daily = [pace(temp_c=temp, reference_temp_c=reference_temp_c, q10=q10) for temp in temps]
    each = (
        " + ".join(carried(one, 4) for one in daily)
        if temperatures
        else f"{plain_number(days_done)} × {carried(here, 4)}"
    )
    paces = f"each day at its own pace: 100 × ({each}) / {plain_number(reference_days)}"
    found = [
        Found(
            "days_to_ready",
            left,
            f"pace at {plain_number(last)} °C: {plain_number(q10)}^(({plain_number(last)} − "
            f"{plain_number(reference_temp_c)})/10) = {carried(here, 4)}{wet}; (1 − {carried(min(done, 1.0), 4)}) × "
            f"{plain_number(reference_days)} / {carried(here * slower, 4)} = {fixed(left, 1)} days",
            soonest,
            latest,
        ),
        Found(
            "share_done_percent",
            100.0 * done,
            f"{paces} = {fixed(100.0 * done, 0)} %",
            100.0 * least,
            100.0 * most,
        ),
        Found(
            "test_from_h",
            test_from,
            f"a day before the earliest: ({fixed(soonest, 2)} − {plain_number(_TEST_EARLY_DAYS)}) × 24 = "
            f"{fixed(test_from, 0)} h"
            if soonest > _TEST_EARLY_DAYS
            else "the earliest is a day away or less",
            worked="sum" if soonest > _TEST_EARLY_DAYS else "rule",
        ),
    ]
    target = min(edge(READY.accept_low) / 100.0, 0.9)
    shares = [_corns(share, reference_days, reference_temp_c, target) for share in (done, least, most)]
    found.append(
        Found(
            "corns_ready_percent",
            shares[0],
            f"corns spread: at the end of the days {fixed(100.0 * target, 0)} % of them are there",
            shares[1],
            shares[2],
        )
    )
    if now is not None:
        found.append(Found("test_at", now + timedelta(hours=test_from), f"time now + {fixed(test_from, 2)} h"))
    return Outcome(
        tuple(found),
        notes=_notes(done, moisture, [*temps, last], reference_temp_c, from_table),
        charts=(growth_chart(done, elapsed, (soonest, left, latest), (least, most)),),
    )


def _corns(done: float, days: float, temp_c: float, target: float) -> float:
    """Share of corns at three quarters and over, for a share of the growth done [%]."""
    length = ready.own_corn_length(reference_days=days, reference_temp_c=temp_c, share=target)
    begun = clocks.growth_after_cast(day=1.0, temp_c=temp_c)
    end = clocks.growth_after_cast(day=1.0 + min(days, 29.0), temp_c=temp_c)
    return 100.0 * ready.share_ready(growth_h=min(begun + done * (end - begun), 1000.0), corn_length_h=length)


def _by_day(rows: tuple[tuple[float, float], ...]) -> list[float]:
    """Each day's temperature; days left out take that of the day before."""
    temps: list[float] = []
    for place, (day, temp) in enumerate(rows, 1):
        number = int(day)
        if number <= len(temps):
            raise AskAgain(
                "temperatures",
                f"row {place}: day {number} does not come after day {len(temps)}. Type the days in order.",
                place,
            )
        if number > len(temps) + 1 and not temps:
            raise AskAgain("temperatures", f"row {place}: the first day given is {number}. Begin with day 1.", place)
        while len(temps) < number - 1:
            temps.append(temps[-1])
        temps.append(temp)
    return temps


def _notes(
    done: float, moisture: float | None, temps: list[float], reference: float, from_table: tuple[Note, ...]
) -> tuple[Note, ...]:
    hot_or_cold = [passed(edges.PIECE, temp) for temp in temps]
    stopped = [line for line in hot_or_cold if line and line.mark == "stop"][-1:]
    notes = [
        *(line._replace(text=f"{line.text} {_WHAT_TO_DO}") for line in limit_notes(stopped, act=False)),
        *from_table,
        Note(
            "remark",
            "The grain decides, not the clock. These days say when to begin looking. Ready is what corns show "
            "when they are split, counted and rubbed: [[sheet:readiness]].",
        ),
    ]
    if done >= 1.0:
        notes.append(
            Note("notice", "By the sum it is ready now. Count today: a batch that runs on overshoots and loses weight.")
        )
    far = max(abs(t - reference) for t in temps)
    if far > _FAR_K:
        notes.append(
            Note(
                "remark",
                f"The bed was {fixed(far, 0)} K away from your usual temperature. So far off the forecast is weak.",
            )
        )
    wet = passed(edges.MOISTURE, moisture)
    if wet and moisture is not None:
        drier = moisture < (edges.MOISTURE.accept_low or 0.0)
        even = span(edges.MOISTURE)
        (note,) = limit_notes([wet])
        notes.insert(
            len(stopped) if wet.mark == "stop" else len(notes),
            Note(
                "notice",
                f"{note.text} That is {'drier' if drier else 'wetter'} than the {even} at which growth is even, and "
                "the days may be well off. "
                + ("[[sheet:sprinkling]] gives the water to put back." if drier else "Watch its heat."),
            ),
        )
    return tuple(notes)


_SUM = "each day counted by its temperature, as the one law of growth does, against your own days"
_LONGEST = "A piece is ready, or spoilt, long before."
_DAYS = within.between(
    0.0,
    ready.DAYS.high,
    _LONGEST,
    "bed_temp_c",
    "temperatures",
    instead="Check the temperatures, your days and the pace for 10 K.",
)
_GROWTH = within.between(
    0.0,
    200.0,
    "At twice its growth every corn has overshot and nothing is left to grow.",
    "days_done",
    "temperatures",
    instead="Check the days done, your days and the pace for 10 K.",
)

SHEET = Sheet(
    id="days-to-ready",
    title="Days to ready",
    purpose="When to begin testing a batch, from its temperatures and your own days.",
    questions=(
        bed_temp_c,
        temperatures,
        reference_temp_c,
        reference_days,
        asked_malt,
        days_done._replace(example="2", in_view=True),
        moisture,
        q10,
        now,
    ),
    either=(Either((("bed_temp_c",), ("temperatures",))),),
    answers=(
        Answer(
            "days_to_ready",
            "Days still to go",
            "days",
            1,
            lead=True,
            rests_on=_SUM,
            trust="Half a unit either way in the pace for 10 K, and a tenth in your own days or two fifths in "
            "usual ones. Barley and house may move it more.",
            next="The grain decides, not the clock.",
            within=_DAYS,
        ),
        Answer("share_done_percent", "Growth done by the sum", "%", 0, lead=True, rests_on=_SUM, within=_GROWTH),
        Answer(
            "test_from_h",
            "Start testing in",
            "h",
            0,
            lead=True,
            rests_on="a day before the earliest day of the forecast",
            next="From then on count every day: [[sheet:readiness]].",
            within=_DAYS._replace(high=24.0 * ready.DAYS.high),
        ),
        Answer(
            "corns_ready_percent",
            "Corns at three quarters by now",
            "%",
            0,
            rests_on="acrospires of a usual lot, 3 corns of 100 not growing, set to those days",
            trust="Their spread is tuned to practice. Where a count shows more, go by the count.",
            worked="model",
            within=within.part("days_done", "temperatures"),
        ),
        Answer("test_at", "Start testing at", kind="clock", rests_on="time now and the hours"),
    ),
    work=work,
    belongs=(
        Belongs(
            "growth_h",
            ("reference_days", "temperatures", "bed_temp_c"),
            "what that is in hours of growth by the law",
            "h",
        ),
    ),
    sources=("thomson-1824", "mueller-2014", "cereals-processing", "evans-2024"),
    story="Batch example-01 in the drum of the example maltings: invented numbers.",
)
