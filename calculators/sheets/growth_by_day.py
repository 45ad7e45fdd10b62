"""A batch day by day: what warmth and water do to its acrospires, its heat and its loss."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    Axis,
    Band,
    Chart,
    Drawing,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Number,
    Outcome,
    Rows,
    Shape,
    Sheet,
    Written,
)
from ..asking.figures import fixed, plain_number
from ..models.living.acrospires import length_at_share
from ..models.living.breathing import SOONEST_FACTOR
from ..models.living.chitting import Corns
from ..models.living.growth_by_day import DAYS, MOISTURE, MOISTURE_REASON, Grown, growth_by_day
from ..models.living.ready import nearest_bed_c
from ..rules.limits import floor_germination as edges
from ..rules.limits.readiness import OVERSHOT
from ..rules.lines import Line as Passed
from ..rules.lines import passed
from ..words import corn_drawn, within
from ..words.limits import limit_notes, stop_said
from ..words.lost import TRUST
from ..words.questions.grown import bed_temp_c as asked_temp
from ..words.questions.shared import number

_APART_K = 3.0
_CORN = 100.0
_PACE_SD = 2.0
_LAW = "the one law of growth, from the cast on, at one temperature and one moisture"
_HOW = "[[page:learning/how-barley-becomes-malt]]"

bed_temp_c = asked_temp._replace(
    label="Temperature of the grain", hint="Held all the time, from the cast on.", example="15"
)
moisture = number(
    "moisture",
    "Moisture of the grain",
    "%",
    MOISTURE,
    "Held all the time. Try a dry bed of 34 %, and a wet one.",
    example="45",
    reason=MOISTURE_REASON,
)
day = Number(
    "day",
    "Days since the cast",
    "days",
    DAYS.low,
    DAYS.high,
    "Days that are over: at 1 the day of the cast is. Go on day by day, and watch what moves.",
    example="3",
)


def work(*, bed_temp_c: float, moisture: float, day: float) -> Outcome:
    """Run the one law to the day, and once more cooler and warmer."""
    days = max(day, 7.0)
    course = growth_by_day(days=days, temp_c=bed_temp_c, moisture=moisture)
    (*_, now) = growth_by_day(days=day, temp_c=bed_temp_c, moisture=moisture)
    behind, ahead = (
        growth_by_day(days=day, temp_c=bed_temp_c, moisture=moisture, pace=side * _PACE_SD)[-1] for side in (-1, 1)
    )
    gentle, brisk = (
        growth_by_day(days=day, temp_c=bed_temp_c, moisture=moisture, factor=factor)[-1]
        for factor in (1.0 / SOONEST_FACTOR, SOONEST_FACTOR)
    )
    at = f"{plain_number(day)} days at {plain_number(bed_temp_c)} °C and {plain_number(moisture)} %"
    found = (
        Found(
            "acrospire_percent", _CORN * now.length, f"{at}, on the growth clock {fixed(now.growth_h, 0)} h",
            _CORN * behind.length, _CORN * ahead.length,
        ),
        Found(
            "three_quarters_percent", 100.0 * now.three_quarters, "each corn has its own start and its own pace",
            100.0 * behind.three_quarters, 100.0 * ahead.three_quarters,
        ),
        Found(
            "overshot_percent", 100.0 * now.overshot, "those whose acrospire is longer than the corn",
            100.0 * behind.overshot, 100.0 * ahead.overshot,
        ),
        Found("heat_kw", now.heat_kw, f"{at}, on that day", gentle.heat_kw, brisk.heat_kw),
        Found(
            "lost_percent", now.lost_percent, "leached in the steep and breathed since; roots still on",
            gentle.lost_percent, brisk.lost_percent,
        ),
    )  # fmt: skip
    rows = [(one.day, _CORN * one.length, 100.0 * one.three_quarters, 100.0 * one.overshot, one.heat_kw,
             one.lost_percent) for one in course if one.day == int(one.day)]  # fmt: skip
    return Outcome(
        found,
        (Rows("days", rows),),
        _notes(now, bed_temp_c, moisture),
        (
            _corns(now),
            _lengths(bed_temp_c, moisture, days, course),
            _losses(course, bed_temp_c, moisture, days),
        ),
    )


_ROW = 118.0
_SCALE = 0.7
_DRAWN = ((0.1, "a slow corn"), (0.5, "the middle one"), (0.9, "a fast corn"))


def _corns(now: Grown) -> Drawing:
    """Draw three corns of the piece as far as they are: 10, 50 and 90 of 100 are shorter."""
    lengths = [length_at_share(share=share, growth_h=now.growth_h, corns=Corns()) for share, _ in _DRAWN]
    shapes: tuple[Shape, ...] = ()
    words: list[Written] = []
    rows: list[tuple[str, ...]] = []
    for n, ((share, said), length) in enumerate(zip(_DRAWN, lengths, strict=True)):
        opened = min(length, 1.0)
        top = n * _ROW
        shapes += corn_drawn.corn(acrospire=length, opened=opened, x=34.0, y=top + 4.0, scale=_SCALE)
        grown = f"{fixed(_CORN * length, 0)} %"
        words += (
            Written(f"{said}:", 306.0, top + 86.0, "label strong"),
            Written(f"{grown}" + (", overshot" if length > 1.0 else ""), 306.0, top + 104.0),
        )
        rows.append((f"{said} ({fixed(_CORN * share, 0)} of 100 are shorter)", grown, f"{fixed(_CORN * opened, 0)} %"))
    slow, middle, fast = (fixed(length, 2) for length in lengths)
    return Drawing(
        "corns",
        "Three corns of the piece, cut lengthwise",
        f"On that day the shoot, under the husk along the back, has come {slow} of the corn’s length in a slow corn, "
        f"{middle} in the middle one, {fast} in a fast one. The part behind the dashed line has opened, from the root "
        "end on: about as far as the shoot (common practice). Roots are drawn for the look.",
        3.0 * _ROW + 6.0,
        shapes,
        tuple(words),
        ("Corn", "Acrospire, of the corn", "Opened, about"),
        tuple(rows),
    )


def _notes(now: Grown, temp_c: float, moisture: float) -> tuple[Note, ...]:
    lines = [passed(edges.PIECE, temp_c), passed(edges.MOISTURE, moisture)]
    notes = list(limit_notes(lines, act=False))
    over = passed(OVERSHOT, 100.0 * now.overshot)
    if over is not None and over.mark == "stop":
        notes.append(_late(over))
    notes.sort(key=lambda note: note.level != "notice")
    notes.append(
        Note(
            "remark",
            "Where grain warms it breathes out carbon dioxide, in a steep, a drum, a box and a low room alike: "
            "[[page:safety/carbon-dioxide]]. This sheet says nothing about the air.",
        )
    )
    notes.append(Note("remark", f"Made for learning: {_HOW}. A piece is judged by its corns: [[sheet:readiness]]."))
    return tuple(notes)


def _late(over: Passed) -> Note:
    return Note("notice", f"Past a stop: by the sum it has grown too long. {stop_said(over)}")


def _lengths(temp_c: float, moisture: float, days: float, course: list[Grown]) -> Chart:
    beside = [(by, nearest_bed_c(temp_c + by)) for by in (_APART_K, -_APART_K)]
    others = [(by, other) for by, other in beside if other != temp_c]
    lines = [Line(f"{plain_number(temp_c)} °C", _days(course), [_CORN * one.length for one in course])]
    for by, other in others:
        run = growth_by_day(days=days, temp_c=other, moisture=moisture)
        word = "warmer" if by > 0 else "cooler"
        lines.append(Line(f"{word}, {plain_number(other)} °C", _days(run), [_CORN * one.length for one in run]))
    return Chart(
        "lengths",
        "How long the acrospires are, day by day",
        f"At {plain_number(temp_c)} °C a mean of {fixed(_CORN * course[-1].length, 0)} % of the corn after "
        f"{plain_number(days)} days; warmer is further, cooler is less far.",
        Axis("days since the cast", "", low=0.0, high=days, decimals=1),
        Axis("acrospire, mean", "% of the corn", low=0.0),
        lines=tuple(lines),
        marks=(Mark("three quarters", 75.0),),
    )


def _losses(course: list[Grown], temp_c: float, moisture: float, days: float) -> Chart:
    low, high = (
        growth_by_day(days=days, temp_c=temp_c, moisture=moisture, factor=factor)
        for factor in (1.0 / SOONEST_FACTOR, SOONEST_FACTOR)
    )
    return Chart(
        "lost",
        "Dry matter lost, day by day",
        f"{fixed(course[-1].lost_percent, 1)} % after {plain_number(days)} days, likely "
        f"{fixed(low[-1].lost_percent, 1)} to {fixed(high[-1].lost_percent, 1)} %. It only rises.",
        Axis("days since the cast", "", low=0.0, high=days, decimals=1),
        Axis("dry matter lost", "%", low=0.0, decimals=1),
        lines=(Line("likely", _days(course), [one.lost_percent for one in course]),),
        bands=(
            Band("least to most", _days(course), [one.lost_percent for one in low], [one.lost_percent for one in high]),
        ),
    )


def _days(course: list[Grown]) -> list[float]:
    return [one.day for one in course]


_LENGTH = within.between(0.0, 1500.0, "No acrospire grows longer in twelve days.", "day")
_SHARE = within.part("day")
_HEAT = within.between(0.0, 20.0, "No barley breathes more.", "bed_temp_c")
_LOST = within.between(0.0, 30.0, "No batch is grown so long.", "day")
_DAY = within.between(DAYS.low, DAYS.high, "A batch is ready, or spoilt, before.", "day")

SHEET = Sheet(
    id="growth-by-day",
    title="Growth, day by day",
    purpose="For learning: what a warmer or cooler, wetter or drier bed does to growth, heat and loss.",
    questions=(bed_temp_c, moisture, day),
    answers=(
        Answer(
            "acrospire_percent",
            "Acrospire, mean of the corns",
            "%",
            0,
            lead=True,
            rests_on=_LAW,
            trust="Of the corn’s length. Batches differ by some two fifths either way; barley and steep decide.",
            next="Split corns and look: [[sheet:readiness]].",
            worked="model",
            within=_LENGTH,
        ),
        Answer(
            "three_quarters_percent",
            "Corns at three quarters or more",
            "%",
            0,
            lead=True,
            rests_on="acrospires of a typical lot, 3 corns of 100 not growing",
            trust="Their spread is tuned to practice.",
            worked="model",
            within=_SHARE,
        ),
        Answer(
            "overshot_percent",
            "Corns overshot",
            "%",
            0,
            rests_on="the same",
            trust="Their spread is tuned to practice.",
            worked="model",
            within=_SHARE,
        ),
        Answer(
            "heat_kw",
            "Heat of a tonne of barley",
            "kW",
            1,
            lead=True,
            rests_on="the one law of breathing",
            trust="To a factor of 2.2 either way.",
            next="It has to be carried off: [[sheet:floor-round]], [[sheet:bed-heat]].",
            worked="model",
            within=_HEAT,
        ),
        Answer(
            "lost_percent",
            "Dry matter lost so far",
            "%",
            1,
            lead=True,
            rests_on="the same law, and what the steep leaches",
            trust=TRUST,
            worked="model",
            within=_LOST,
        ),
    ),
    listings=(
        Listing(
            "days",
            "Day by day",
            (
                Heading("day", "Days", "", 0, within=_DAY),
                Heading("length", "Acrospire", "%", 0, within=_LENGTH),
                Heading("ready", "At ¾ or more", "%", 0, within=_SHARE),
                Heading("over", "Overshot", "%", 0, within=_SHARE),
                Heading("heat", "Heat a tonne", "kW", 1, within=_HEAT),
                Heading("lost", "Lost", "%", 1, within=_LOST),
            ),
        ),
    ),
    work=work,
    sources=("mueller-2014", "thomson-1824", "evans-2024"),
    story="A batch of a usual barley, steeped as usual. The numbers are computed, not measured.",
)
