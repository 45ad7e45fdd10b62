"""The steep model beside what was published on water uptake: charts and tables for the page on the models."""

from __future__ import annotations

from math import sqrt

from ..asking.declare import Axis, Band, Chart, Dots, Line
from ..asking.figures import fixed, plain_number
from ..drawing.chart import Data
from ..models.steep.course import Steep
from ..models.steep.doubt import TYPICAL, Trust, trust
from ..models.steep.fit import Reading, fit
from ..models.steep.hydration import steep
from ..models.weights.moisture import dry_basis, wet_basis
from .lots import EIGHT_LOTS, HOURS, START_MOISTURE, WATER_TEMP_C

LOTS = tuple(EIGHT_LOTS)
SEEN_H = (10.0, 20.0)
"""Hours of the two readings that correct each forecast."""

_LABORATORY_SD = 0.2  # the shape of the curve alone; weighing adds hardly anything
_UNDER_WATER = TYPICAL._replace(film_db=0.0)  # blotted lots: no film, so no doubt about one
_CURVE = 48


def _before() -> Steep:
    return steep(barley_moisture=START_MOISTURE, stages=[(HOURS[-1], WATER_TEMP_C)], film_db=0.0)


def _after(lot: str, hours: tuple[float, ...]) -> tuple[Steep, Trust]:
    readings = [Reading(h, EIGHT_LOTS[lot][HOURS.index(h)], drained=False, sd_points=_LABORATORY_SD) for h in hours]
    fitted = fit(_before(), readings, _UNDER_WATER)
    return fitted.course, fitted.trust


def _misses(course: Steep, lot: str) -> list[float]:
    return [course.at(h).net - m for h, m in zip(HOURS, EIGHT_LOTS[lot], strict=True)]


def _rms(misses: list[float]) -> float:
    return sqrt(sum(miss * miss for miss in misses) / len(misses))


def id_of(lot: str) -> str:
    """The name of a lot as a part of an id."""
    return lot.lower().replace(" ", "-")


def chart_of(lot: str) -> Chart:
    """One published lot with the forecast before, and after readings at 10 and 20 h."""
    before = _before()
    after, doubt = _after(lot, SEEN_H)
    curve = before.curve(_CURVE)
    corrected = [after.at(h, 0).net for h in curve.hours]
    band = trust(before, _UNDER_WATER).band(curve.hours, curve.stage)
    narrow = doubt.band(curve.hours, curve.stage)
    start, end = _misses(before, lot)[-1], _misses(after, lot)[-1]
    seen = [HOURS.index(h) for h in SEEN_H]
    rest = [n for n in range(len(HOURS)) if n not in seen]
    return Chart(
        f"lot-{id_of(lot)}",
        f"Lot {lot}: published uptake and the forecast",
        f"Lot {lot}. At 35 h the forecast for a typical barley is {_signed(start)} points off; with readings at 10 and "
        f"20 h it is {_signed(end)} points off.",
        Axis("Hours under water", "h", 0.0, HOURS[-1], 1),
        Axis("Moisture", "%", 10.0, 50.0, 1),
        lines=(
            Line("with readings at 10 and 20 h", curve.hours, corrected),
            Line("typical barley, no reading", curve.hours, curve.net),
        ),
        bands=(
            Band("band with the readings", curve.hours, narrow.low, narrow.high),
            Band("band without a reading", curve.hours, band.low, band.high),
        ),
        dots=(
            Dots("published, used as readings", list(SEEN_H), [EIGHT_LOTS[lot][n] for n in seen]),
            Dots("published", [HOURS[n] for n in rest], [EIGHT_LOTS[lot][n] for n in rest]),
        ),
    )


def _signed(value: float) -> str:
    text = fixed(value, 1)
    return text if text.startswith("-") or text == "0.0" else f"+{text}"


ERRORS_CAPTION = "Forecast less published moisture, in points, lot by lot"


def errors() -> Data:
    """Errors at every hour of every lot, before and after two readings."""
    rows = []
    for lot in LOTS:
        for name, course in (("no reading", _before()), ("10 and 20 h", _after(lot, SEEN_H)[0])):
            misses = _misses(course, lot)
            rows.append((lot, name, *(_signed(miss) for miss in misses), fixed(_rms(misses), 2)))
    heads = ("Lot", "Readings", *(f"{plain_number(h)} h" for h in HOURS), "Root mean square")
    return Data(heads, tuple(rows))


ENDS_CAPTION = "Forecast less published moisture at 35 h, in points, by the readings used"


def ends() -> Data:
    """What one reading, early or late, and two are worth at 35 h."""
    choices: tuple[tuple[str, tuple[float, ...]], ...] = (
        ("none", ()),
        ("5 h", (5.0,)),
        ("10 h", (10.0,)),
        ("20 h", (20.0,)),
        ("10 and 20 h", SEEN_H),
        ("5, 10, 15 and 20 h", (5.0, 10.0, 15.0, 20.0)),
    )
    rows = []
    for name, hours_seen in choices:
        misses = [_misses(_after(lot, hours_seen)[0] if hours_seen else _before(), lot)[-1] for lot in LOTS]
        rows.append((name, *map(_signed, misses), fixed(max(map(abs, misses)), 1)))
    return Data(("Readings", *LOTS, "Worst"), tuple(rows))


HOURS_CAPTION = "Hours of unbroken immersion from 12 %: a remembered table of the German handbooks, and the model"
_REMEMBERED = {40.0: (47.5, 34.0, 30.0, 21.0), 43.0: (78.0, 54.0, 46.0, 28.0), 46.0: (101.0, 78.0, 73.0, 44.0)}
_REMEMBERED_TEMPS = (9.0, 13.0, 17.0, 21.0)


def hours() -> Data:
    """The handbook table as remembered, beside the model of a corn kept under water."""
    rows = []
    for target, remembered in _REMEMBERED.items():
        cells = []
        for temp, there in zip(_REMEMBERED_TEMPS, remembered, strict=True):
            course = steep(barley_moisture=START_MOISTURE, stages=[(72.0, temp)], film_db=0.0)
            ours = course.time_to_moisture(target, 400.0)
            cells.append(f"{plain_number(there)} / {'–' if ours is None else fixed(ours, 0)}")
        rows.append((f"{plain_number(target)} %", *cells))
    return Data(("To", *(f"{plain_number(t)} °C: table / model, h" for t in _REMEMBERED_TEMPS)), tuple(rows))


CHECKS_CAPTION = "What is published about uptake without a curve, and what the model gives"


def checks() -> Data:
    """Statements in print that are not curves, beside the model."""
    return Data(("Published", "It says", "The model gives"), (_thomson(), _korea(), _slow_end(), _plan()))


def _net_after(hours_wet: float, water_temp_c: float) -> float:
    """Net moisture after one immersion, however long."""
    course = steep(barley_moisture=START_MOISTURE, stages=[(72.0, water_temp_c)], film_db=0.0)
    low, high = 20.0, 55.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        reached = course.time_to_moisture(middle, 1000.0)
        if reached is None or reached > hours_wet:
            high = middle
        else:
            low = middle
    return low


def _thomson() -> tuple[str, str, str]:
    found = ", ".join(f"{fixed(_net_after(100.0, t), 1)} at {plain_number(t)} °C" for t in (5.0, 8.0, 10.0))
    return (
        "Thomson 1824 (read)",
        "100 lb weigh 147 lb, surface dry, after the usual steep, in Edinburgh 92 to 112 h: 41.2 % with his 1.5 % "
        "lost. The water’s temperature is not given",
        f"after 100 h in one water: {found}",
    )


def _korea() -> tuple[str, str, str]:
    course = steep(barley_moisture=START_MOISTURE, stages=[(72.0, 20.0)], film_db=0.0)
    start = dry_basis(moisture=START_MOISTURE) / 100.0

    def hours_to(gain: float) -> float:
        target = wet_basis(moisture_db=100.0 * (start + gain))
        reached = course.time_to_moisture(target, 1000.0)
        assert reached is not None
        return reached

    # By the root law the gain would grow as the root of time from an early value on.
    early = hours_to(0.15)
    short = [100.0 * (1.0 - gain / (0.15 * sqrt(hours_to(gain) / early))) for gain in (0.45, 0.55)]
    return (
        "Barley kernels, 1983 (abstract read)",
        "uptake goes with the root of time up to a gain of 0.45 to 0.55 g a gram",
        f"{fixed(short[0], 0)} % under that law at a gain of 0.45, {fixed(short[1], 0)} % at 0.55: it bends sooner",
    )


def _slow_end() -> tuple[str, str, str]:
    course = steep(barley_moisture=START_MOISTURE, stages=[(72.0, 11.0)], film_db=0.0)

    def hours_for_a_point(moisture: float) -> float:
        times = [course.time_to_moisture(m, 1000.0) for m in (moisture, moisture + 1.0)]
        assert times[0] is not None and times[1] is not None
        return times[1] - times[0]

    return (
        "A handbook text (not citable)",
        "1 % or more an hour at first; towards the end one more point takes over 5 h; usual water 10 to 12 °C",
        f"at 11 °C under water: {fixed(hours_for_a_point(40.0), 1)} h from 40 to 41 %, "
        f"{fixed(hours_for_a_point(43.0), 1)} h from 43 to 44 %",
    )


def _plan() -> tuple[str, str, str]:
    course = steep(barley_moisture=12.5, stages=[(h, 15.0) for h in (8.0, 10.0, 8.0, 7.0, 3.0)])
    ends_on = [end.drained for end in course.ends]
    return (
        "Canadian guide (in a copy)",
        "6–10 h wet, 8–12 rest, 6–10 wet, 6–8 rest, 2–4 wet at 12 to 18 °C: 30 to 35 % after the first, 43 to 45 % at "
        "the end",
        f"8, 10, 8, 7, 3 h at 15 °C from 12.5 %: {fixed(ends_on[0], 1)} % after the first, {fixed(ends_on[-1], 1)} % "
        "at the end (drained)",
    )
