"""What someone has breathed over a day, beside the limits of several countries."""

from __future__ import annotations

from ..declare import (
    Answer,
    AskAgain,
    Axis,
    Chart,
    Choice,
    Found,
    Heading,
    Line,
    Listing,
    Mark,
    Note,
    Number,
    Option,
    Outcome,
    Rows,
    Sheet,
    Table,
)
from ..figures import fixed, plain_number
from ..models import exposure as model
from ..models.exposure import DAY_MINUTES, IDLH_PPM, LEAVE_PPM, LIMITS, Limit, Row
from ..models.gas import mg_m3, molar_volume_l
from ..questions import number

COUNTRIES = (
    Option("uk", "United Kingdom"),
    Option("eu", "European Union"),
    Option("us", "United States"),
)

rows = Table(
    "rows",
    "Readings",
    (
        number("ppm", "Carbon dioxide", "ppm", model.ROW_PPM),
        number("minutes", "For how long", "min", model.ROW_MINUTES),
    ),
    hint="At the height of the nose, in the order of the day, one straight after the other.",
    example="700 240; 3500 60; 9000 20; 1200 160",
)
unmeasured_ppm = number(
    "unmeasured_ppm",
    "Air in the time not measured",
    "ppm",
    model.UNMEASURED_PPM,
    "Asked when the rows come to less than 8 h. If nobody knows, type the highest you read.",
)._replace(optional=True, in_view=True)
country = Choice(
    "country",
    "Country",
    COUNTRIES,
    "Whose limits come first. All are shown.",
    default="uk",
    in_view=True,
)
house_limit_ppm = Number(
    "house_limit_ppm",
    "Stricter limit of the house, 8 h",
    "ppm",
    model.HOUSE_LIMIT_PPM.low,
    model.HOUSE_LIMIT_PPM.high,
    "If your site has set one.",
    optional=True,
)
temperature_c = number(
    "temperature_c",
    "Temperature for mg/m³",
    "C",
    model.READING_LIMITS_TEMPERATURE_C,
    "ppm do not depend on it; mg/m³ do.",
    default="20",
)


def work(
    *,
    rows: tuple[Row, ...],
    unmeasured_ppm: float | None,
    country: str,
    house_limit_ppm: float | None,
    temperature_c: float,
) -> Outcome:
    """Take the means and set them beside the limits."""
    measured = model.measured_minutes(rows)
    missing = DAY_MINUTES - measured
    if measured > 1440:
        raise AskAgain(
            "rows",
            f"the rows come to {plain_number(measured)} minutes, and a day has 1440. Take some out.",
        )
    if missing > 0 and unmeasured_ppm is None:
        raise AskAgain(
            "unmeasured_ppm",
            f"the rows come to {plain_number(measured)} of 480 minutes. Type what the air was in the other "
            f"{plain_number(missing)}, from {plain_number(model.UNMEASURED_PPM.low)} ppm. "
            "It is never taken as zero. If nobody knows, type the highest you read.",
        )
    mean = model.time_weighted_ppm(rows, unmeasured_ppm)
    short = model.highest_mean_ppm(rows, unmeasured_ppm)
    top = max(ppm for ppm, _ in rows)
    if missing > 0 and unmeasured_ppm is not None:
        top = max(top, unmeasured_ppm)
    limits = [limit for limit in LIMITS if limit.country == country]
    if house_limit_ppm is not None:
        limits.append(Limit("house", "any", "Your house, 8 h", house_limit_ppm, DAY_MINUTES, None, None, "", ""))
    limits += [limit for limit in LIMITS if limit.country != country]
    figures = {limit.id: _compared(limit, mean, short, top) for limit in limits}
    found = (
        Found("twa_ppm", mean, _sum(rows, unmeasured_ppm, missing, mean)),
        Found("highest_15_min_ppm", short, "highest mean of any 15 minutes in a row, with the time not measured"),
        Found("highest_ppm", top, "highest single figure given"),
        Found(
            "twa_mg_m3",
            mg_m3(ppm=mean, temperature_c=temperature_c),
            f"{fixed(mean, 0)} × 44.01 / {fixed(molar_volume_l(temperature_c=temperature_c), 3)} L a mole at "
            f"{plain_number(temperature_c)} °C",
        ),
        Found(
            "highest_15_min_mg_m3",
            mg_m3(ppm=short, temperature_c=temperature_c),
            f"the same at {plain_number(temperature_c)} °C",
        ),
    )
    listed: list[list[str | float | None]] = [
        [
            f"{limit.name} ({limit.standing})" if limit.standing else limit.name,
            limit.ppm,
            figures[limit.id],
            100 * figures[limit.id] / limit.ppm,
            _printed(limit),
            mg_m3(ppm=limit.ppm, temperature_c=temperature_c),
        ]
        for limit in limits
    ]
    notes = _notes(rows, top, [limit for limit in limits if figures[limit.id] > limit.ppm], country)
    return Outcome(found, (Rows("limits", listed),), notes, (_chart(rows, unmeasured_ppm, missing),))


def _compared(limit: Limit, mean: float, short: float, top: float) -> float:
    if limit.minutes == 0:
        return top
    return short if limit.minutes <= 15 else mean


def _printed(limit: Limit) -> str:
    if limit.printed_mg_m3 is None:
        return "–"
    at = "no temperature" if limit.printed_at_c is None else f"{limit.printed_at_c:.0f} °C"
    return f"{limit.printed_mg_m3:,.0f} ({at})"


def _sum(rows: tuple[Row, ...], unmeasured: float | None, missing: float, mean: float) -> str:
    terms = [f"{plain_number(ppm)} × {plain_number(minutes)}" for ppm, minutes in rows]
    if missing > 0 and unmeasured is not None:
        terms.append(f"{plain_number(unmeasured)} × {plain_number(missing)} not measured")
    return f"({' + '.join(terms)}) / 480 min = {fixed(mean, 0)} ppm"


def _notes(rows: tuple[Row, ...], top: float, over: list[Limit], country: str) -> tuple[Note, ...]:
    notes: list[Note] = []
    if top > IDLH_PPM:
        notes.append(
            Note(
                "danger",
                f"LEAVE. {fixed(top, 0)} ppm is over 40,000: dangerous to life at once. Get out, get everyone "
                "out, keep others back, call: [[page:safety/emergency|emergency]].",
            )
        )
    elif top > LEAVE_PPM:
        notes.append(
            Note(
                "danger",
                f"LEAVE. {fixed(top, 0)} ppm is over a short-term limit, 15,000. Go out at once, keep others "
                "back, tell the shift lead. Nobody goes back until a competent person has found the cause.",
            )
        )
    for limit in over:
        if limit.minutes > 15:
            notes.append(
                Note(
                    "warning",
                    f"Over the limit “{limit.name}”: this could harm someone, and most laws forbid it. "
                    "Stop the exposure, tell the shift lead, find where the gas comes from.",
                )
            )
    if any(ppm < model.LOWEST_OUTDOOR_PPM for ppm, _ in rows):
        notes.append(
            Note(
                "notice",
                "A reading below 350 ppm is less than outdoor air has. The meter is wrong, or was set to zero in "
                "bad air. Have it checked.",
            )
        )
    if country == "eu":
        notes.append(
            Note(
                "remark",
                "The EU figure is indicative. Your country sets its own, often with a short-term limit: Germany "
                "and Austria 10,000 ppm (second-hand). Ask.",
            )
        )
    notes.append(
        Note(
            "danger",
            "These are readings of a place where people work, at the time they were taken. They allow no entry to a "
            "vessel, pit or duct, and say nothing of the next minute: [[page:safety/confined-vessels|vessels, "
            "pits and gas]].",
        )
    )
    return tuple(notes)


def _chart(rows: tuple[Row, ...], unmeasured: float | None, missing: float) -> Chart:
    xs: list[float] = []
    ys: list[float] = []
    begin = 0.0
    for ppm, minutes in rows:
        xs += [begin, begin + minutes / 60]
        ys += [ppm, ppm]
        begin += minutes / 60
    lines = [Line("measured", xs, ys)]
    if missing > 0 and unmeasured is not None:
        lines.append(Line("not measured", [begin, 8.0], [unmeasured, unmeasured]))
    high = max(6000.0, 1.1 * max(ys), 1.1 * (unmeasured or 0.0))
    marks = [Mark("8 h limit 5,000", 5000.0)]
    if high > 16_000:
        marks.append(Mark("leave: over 15,000", LEAVE_PPM))
    if high > 41_000:
        marks.append(Mark("dangerous at once: 40,000", IDLH_PPM))
    return Chart(
        "day",
        "Readings over the day",
        "The readings as steps, in the order given. The line at 5,000 is for the mean over 8 hours. "
        "A reading over 15,000 means: leave.",
        Axis("Time", "h", 0.0, max(8.0, begin), 1),
        Axis("Carbon dioxide", "ppm", 0.0, high, 0),
        lines=tuple(lines),
        marks=tuple(marks),
    )


_LAW = "29 CFR 1910.1000(d)(1): sum of concentration × time over 8 h"

SHEET = Sheet(
    id="exposure",
    title="Carbon dioxide over a day",
    purpose="What someone has breathed, as a mean over 8 hours and over the worst 15 minutes, beside the limits.",
    questions=(rows, unmeasured_ppm, country, house_limit_ppm, temperature_c),
    answers=(
        Answer(
            "twa_ppm",
            "Mean over 8 hours",
            "ppm",
            0,
            lead=True,
            rests_on=_LAW,
            trust="As good as the readings and the guess for the time not measured. Meters are good to 5 % or so.",
        ),
        Answer(
            "highest_15_min_ppm",
            "Highest mean over 15 minutes",
            "ppm",
            0,
            lead=True,
            rests_on="the worst stretch of 15 minutes, rows laid end to end",
            trust="A spike between two readings is not in it.",
        ),
        Answer("highest_ppm", "Highest reading", "ppm", 0, rests_on="the rows"),
        Answer(
            "twa_mg_m3",
            "Mean over 8 hours by weight, at the temperature given",
            "mg/m3",
            0,
            rests_on="44.01 g a mole at the temperature given and 101.3 kPa",
            trust="Means nothing without its temperature: 5,000 ppm is 9,148 at 20 °C and 8,995 at 25 °C.",
        ),
        Answer(
            "highest_15_min_mg_m3",
            "Highest 15 minutes by weight, at the temperature given",
            "mg/m3",
            0,
            rests_on="the same",
        ),
    ),
    listings=(
        Listing(
            "limits",
            "Beside the limits",
            (
                Heading("limit", "Limit", kind="text"),
                Heading("ppm", "Limit", "ppm", 0),
                Heading("yours", "Yours", "ppm", 0),
                Heading("share", "Share", "%", 0),
                Heading("printed", "Printed mg/m³ (at)", kind="text"),
                Heading("mg_m3", "mg/m³ at your temperature", "", 0),
            ),
        ),
    ),
    work=work,
    guarded=True,
    sources=("niosh-co2", "eh40", "eu-2006-15", "eec-91-322", "trgs-900", "austria-mak", "cfr-1910-1000"),
    story="A shift at the example maltings, on the steep platform and the floor: invented readings.",
)
