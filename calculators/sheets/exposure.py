"""What someone has breathed over a day, beside the limits of several countries."""

from __future__ import annotations

import math
from collections.abc import Mapping

from ..asking.declare import (
    Answer,
    AskAgain,
    Belongs,
    Choice,
    First,
    Found,
    Heading,
    Listing,
    Note,
    Number,
    Option,
    Outcome,
    Rows,
    Sheet,
    Table,
)
from ..asking.figures import few_digits, fixed, plain_number
from ..models.gas import exposure as model
from ..models.gas.dilution import mg_m3, molar_volume_l
from ..models.gas.exposure import DAY_MINUTES, Row
from ..rules import gases
from ..rules.gases import CO2, GasLimit
from ..words import within
from ..words.exposure import (
    BEYOND,
    LEAVE_PPM,
    NO_ENTRY,
    OUT,
    READ_AGAIN,
    chart_of,
    leave,
    leave_for_a_slip,
    mistaken,
    notes_of,
)
from ..words.gas import limit_name, printed_words
from ..words.questions.shared import number

DEFAULT_C = 20.0

COUNTRIES = (
    Option("uk", "United Kingdom"),
    Option("eu", "European Union"),
    Option("us", "United States"),
)

rows = Table(
    "rows",
    "Readings",
    (
        number("ppm", "Carbon dioxide", "ppm", model.ROW_PPM, example="700"),
        number("minutes", "For how long", "min", model.ROW_MINUTES, default="0")._replace(
            reason=f"Is it a gas reading? From {LEAVE_PPM:,.0f} ppm on: leave."
        ),
    ),
    hint="At the height of the nose, in the order of the day, one straight after the other. A reading is judged at "
    "once, even when nobody knows how long it lasted.",
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
    default=plain_number(DEFAULT_C),
)


def at_once(
    *,
    rows: tuple[tuple[float | None, float | None], ...] | None,
    unmeasured_ppm: float | None,
    country: str | None,
    house_limit_ppm: float | None,
    temperature_c: float | None,
) -> Outcome | None:
    """Every reading that can be read is judged, whatever is blank or wrong beside it."""
    read = [ppm for ppm in (*(row[0] for row in rows or ()), unmeasured_ppm) if ppm is not None]
    top = max(read, default=0.0)
    order = gases.order_to_leave(CO2, top)
    slip = mistaken(read) if order is None else None
    if slip is not None:
        return Outcome((Found("order", "leave", READ_AGAIN),), notes=(leave_for_a_slip(slip), NO_ENTRY))
    if order is None:
        return None
    if math.isinf(top):
        return Outcome((Found("order", "leave", BEYOND),), notes=(Note("danger", f"LEAVE. {BEYOND} {OUT}"), NO_ENTRY))
    limits = _limits(country or "", house_limit_ppm)
    figures: dict[str, float | None] = {limit.id: top if limit.minutes == 0 else None for limit in limits}
    celsius = DEFAULT_C if temperature_c is None else temperature_c
    blank = Note(
        "remark",
        "No mean is worked out: something is still blank or cannot be read. The order above does not wait for it.",
    )
    return Outcome(
        _ordered(top, order),
        (Rows("limits", _listed(limits, figures, celsius)),),
        (leave(top, order), NO_ENTRY, blank),
    )


def _ordered(top: float, order: GasLimit | None) -> tuple[Found, ...]:
    highest = Found("highest_ppm", top, "the highest single figure")
    return (highest,) if order is None else (Found("order", "leave", _judged(top, order)), highest)


def work(
    *,
    rows: tuple[Row, ...],
    unmeasured_ppm: float | None,
    country: str,
    house_limit_ppm: float | None,
    temperature_c: float,
) -> Outcome:
    """Judge each reading by itself; then take the means and set them beside the limits."""
    read = [ppm for ppm, _ in rows] + ([] if unmeasured_ppm is None else [unmeasured_ppm])
    top = max(read)
    order = gases.order_to_leave(CO2, top)
    slip = mistaken(read) if order is None else None
    if slip is not None:
        return Outcome((Found("order", "leave", READ_AGAIN),), notes=(leave_for_a_slip(slip), NO_ENTRY))
    measured = model.measured_minutes(rows)
    missing = DAY_MINUTES - measured
    lacking = _lacking(rows, unmeasured_ppm, measured, missing)
    if lacking is not None:
        raise lacking
    limits = _limits(country, house_limit_ppm)
    ordered = () if order is None else (leave(top, order),)
    found = list(_ordered(top, order))
    mean = model.time_weighted_ppm(rows, unmeasured_ppm)
    short = model.highest_mean_ppm(rows, unmeasured_ppm)
    figures: dict[str, float | None] = {limit.id: _compared(limit, mean, short, top) for limit in limits}
    found += [
        Found("twa_ppm", mean, _sum(rows, unmeasured_ppm, missing, mean)),
        Found("highest_15_min_ppm", short, "highest mean of any 15 minutes in a row, with the time not measured"),
        Found(
            "twa_mg_m3",
            mg_m3(ppm=mean, temperature_c=temperature_c),
            _by_weight(mean, temperature_c),
        ),
        Found(
            "highest_15_min_mg_m3",
            mg_m3(ppm=short, temperature_c=temperature_c),
            _by_weight(short, temperature_c),
        ),
    ]
    over = [limit for limit in limits if (figures[limit.id] or 0.0) > limit.ppm]
    return Outcome(
        tuple(found),
        (Rows("limits", _listed(limits, figures, temperature_c)),),
        (*ordered, NO_ENTRY, *notes_of(rows, over, country)),
        (chart_of(rows, unmeasured_ppm, missing),),
    )


def _by_weight(ppm: float, temperature_c: float) -> str:
    return (
        f"{fixed(ppm, 0)} ppm × 44.01 g / {fixed(molar_volume_l(temperature_c=temperature_c), 3)} L = "
        f"{fixed(mg_m3(ppm=ppm, temperature_c=temperature_c), 0)} mg/m³, a mole of the gas at "
        f"{plain_number(temperature_c)} °C"
    )


def _lacking(rows: tuple[Row, ...], unmeasured: float | None, measured: float, missing: float) -> AskAgain | None:
    """What still has to be typed before a mean can be taken."""
    for at, (_, minutes) in enumerate(rows, 1):
        if minutes == 0:
            return AskAgain("rows", f"row {at}: type how long it lasted, up to 1440 min, such as 15.", at)
    if measured > 1440:
        return AskAgain(
            "rows",
            f"the rows come to {few_digits(measured, 4)} minutes, and a day has 1440. Take some out.",
        )
    if missing > 0 and unmeasured is None:
        return AskAgain(
            "unmeasured_ppm",
            f"the rows come to {few_digits(measured, 4)} of {plain_number(DAY_MINUTES)} minutes. Type what the air was "
            f"in the other {few_digits(missing, 4)}, from {plain_number(model.UNMEASURED_PPM.low)} ppm. "
            "It is never taken as zero. If nobody knows, type the highest you read.",
        )
    return None


def _limits(country: str, house_limit_ppm: float | None) -> list[GasLimit]:
    """Those of the country first, then the house's, then all others."""
    listed = gases.limits_of(CO2)
    first = [limit for limit in listed if limit.where == country and limit.kind != "danger"]
    house = []
    if house_limit_ppm is not None:
        house.append(GasLimit("house", CO2, "house", "day", house_limit_ppm, DAY_MINUTES, "law", ""))
    return first + house + [limit for limit in listed if limit not in first]


def _compared(limit: GasLimit, mean: float, short: float, top: float) -> float:
    if limit.minutes == 0:
        return top
    return short if limit.kind == "short" else mean


def _listed(
    limits: list[GasLimit], figures: Mapping[str, float | None], temperature_c: float
) -> list[list[str | float | None]]:
    listed: list[list[str | float | None]] = []
    for limit in limits:
        yours = figures[limit.id]
        standing = "" if limit.how_read == "read" else f" ({limit.how_read})"
        listed.append(
            [
                limit_name(limit) + standing,
                limit.ppm,
                yours,
                None if yours is None else 100 * yours / limit.ppm,
                printed_words(limit),
                mg_m3(ppm=limit.ppm, temperature_c=temperature_c),
            ]
        )
    return listed


def _sum(rows: tuple[Row, ...], unmeasured: float | None, missing: float, mean: float) -> str:
    terms = [f"{plain_number(ppm)} × {plain_number(minutes)}" for ppm, minutes in rows]
    if missing > 0 and unmeasured is not None:
        terms.append(f"{plain_number(unmeasured)} × {plain_number(missing)} not measured")
    return f"({' + '.join(terms)}) / {plain_number(DAY_MINUTES)} min = {fixed(mean, 0)} ppm"


def _judged(top: float, order: GasLimit) -> str:
    return f"{fixed(top, 0)} ppm has reached {order.ppm:,.0f} ppm: {limit_name(order)}"


_LAW = "29 CFR 1910.1000(d)(1): sum of concentration × time over 8 h"
_BY_WEIGHT = within.between(0.0, 2.2e6, "The gas alone weighs that.", "rows")

SHEET = Sheet(
    id="exposure",
    title="Carbon dioxide over a day",
    purpose="What someone has breathed, as a mean over 8 hours and over the worst 15 minutes, beside the limits.",
    questions=(rows, unmeasured_ppm, country, house_limit_ppm, temperature_c),
    answers=(
        Answer(
            "order",
            "By the highest reading",
            kind="verdict",
            words=(Option("leave", "LEAVE. At once, everybody."),),
            lead=True,
            rests_on="the strictest published ceiling or short-term value of any country, for each reading by itself",
            next="[[page:safety/emergency|Emergency]] when someone is down. Otherwise tell the shift lead, from "
            "outside.",
        ),
        Answer(
            "highest_ppm",
            "Highest reading",
            "ppm",
            0,
            lead=True,
            rests_on="the rows, and the air in the time not measured",
            trust="One place and one moment. Lower down there may be more.",
            worked="given",
            within=within.ppm("rows"),
        ),
        Answer(
            "twa_ppm",
            "Mean over 8 hours",
            "ppm",
            0,
            lead=True,
            rests_on=_LAW,
            trust="As good as the readings and the guess for the time not measured. Meters are good to 5 % or so.",
            within=within.ppm("rows"),
        ),
        Answer(
            "highest_15_min_ppm",
            "Highest mean over 15 minutes",
            "ppm",
            0,
            lead=True,
            rests_on="the worst stretch of 15 minutes, rows laid end to end",
            trust="A spike between two readings is not in it.",
            worked="model",
            within=within.ppm("rows"),
        ),
        Answer(
            "twa_mg_m3",
            "Mean over 8 hours by weight, at the temperature given",
            "mg/m3",
            0,
            rests_on="44.01 g a mole at the temperature given and 101.3 kPa",
            trust="Means nothing without its temperature: 5,000 ppm is 9,148 at 20 °C and 8,995 at 25 °C.",
            within=_BY_WEIGHT,
        ),
        Answer(
            "highest_15_min_mg_m3",
            "Highest 15 minutes by weight, at the temperature given",
            "mg/m3",
            0,
            rests_on="the same",
            within=_BY_WEIGHT,
        ),
    ),
    listings=(
        Listing(
            "limits",
            "Beside the limits",
            (
                Heading("limit", "Limit", kind="text"),
                Heading("ppm", "Limit", "ppm", 0, within=within.ppm()),
                Heading("yours", "Yours", "ppm", 0, within=within.ppm("rows")),
                Heading(
                    "share",
                    "Share",
                    "%",
                    0,
                    within=within.between(
                        0.0, 1e8 / model.HOUSE_LIMIT_PPM.low, "A million parts in a million are the whole.", "rows"
                    ),
                ),
                Heading("printed", "Printed mg/m³ (at)", kind="text"),
                Heading("mg_m3", "mg/m³ at your temperature", "", 0, within=_BY_WEIGHT),
            ),
        ),
    ),
    work=work,
    first=First(
        ("rows", "unmeasured_ppm", "country", "house_limit_ppm", "temperature_c"), at_once, ("ppm", "unmeasured_ppm")
    ),
    guarded=True,
    belongs=(Belongs("ppm", ("rows",), "the mean over 8 hours", "ppm"),),
    sources=("niosh-co2", "eh40", "eu-2006-15", "eec-91-322", "trgs-900", "austria-mak", "cfr-1910-1000"),
    story="A shift at the example maltings, on the steep platform and the floor: invented readings.",
)
