"""Our units, how they are shown, and which other units a person may type.

Each of our units lists what else is understood as ``alias: (factor, offset)``:
value in our unit = typed value * factor + offset. Aliases are compared without case
except where case matters (none does here).
"""

from typing import NamedTuple

from .declare import Number


class Unit(NamedTuple):
    """How one of our units is shown and what may be typed for it."""

    show: str
    spoken: str
    accepts: dict[str, tuple[float, float]]


def _same(*names: str) -> dict[str, tuple[float, float]]:
    return dict.fromkeys(names, (1.0, 0.0))


def _times(factors: dict[str, float]) -> dict[str, tuple[float, float]]:
    return {name: (factor, 0.0) for name, factor in factors.items()}


_POUND = 0.45359237  # kg, exact by definition
_FOOT = 0.3048  # m, exact by definition

UNITS: dict[str, Unit] = {
    "": Unit("", "", {}),
    "%": Unit("%", "per cent", _same("%", "percent", "per cent", "pct")),
    "points": Unit("points", "percentage points", _same("points", "point", "%", "pts")),
    "kg": Unit(
        "kg",
        "kilograms",
        _same("kg", "kilo", "kilos", "kilogram", "kilograms")
        | _times({"g": 1e-3, "t": 1000.0, "tonne": 1000.0, "tonnes": 1000.0})
        | _times({"lb": _POUND, "lbs": _POUND}),
    ),
    "g": Unit(
        "g",
        "grams",
        _same("g", "gr", "gram", "grams")
        | _times({"kg": 1000.0, "mg": 1e-3, "oz": _POUND * 1000 / 16, "lb": _POUND * 1000}),
    ),
    "C": Unit(
        "°C",
        "degrees Celsius",
        _same("c", "°c", "deg c", "degc", "celsius")
        | dict.fromkeys(("f", "°f", "deg f", "degf", "fahrenheit"), (5 / 9, -160 / 9))
        | {"k": (1.0, -273.15)},
    ),
    "K": Unit("K", "kelvin", _same("k", "c", "°c") | _times({"f": 5 / 9, "°f": 5 / 9})),
    "h": Unit(
        "h",
        "hours",
        _same("h", "hr", "hrs", "hour", "hours")
        | _times({"min": 1 / 60, "minutes": 1 / 60, "d": 24.0, "day": 24.0, "days": 24.0}),
    ),
    "min": Unit(
        "min",
        "minutes",
        _same("min", "mins", "minute", "minutes") | _times({"h": 60.0, "hours": 60.0, "hour": 60.0, "s": 1 / 60}),
    ),
    "days": Unit(
        "days",
        "days",
        _same("d", "day", "days") | _times({"h": 1 / 24, "hours": 1 / 24}),
    ),
    "m": Unit(
        "m",
        "metres",
        _same("m", "metre", "metres") | _times({"cm": 0.01, "mm": 0.001, "ft": _FOOT, "in": _FOOT / 12}),
    ),
    "cm": Unit(
        "cm",
        "centimetres",
        _same("cm") | _times({"m": 100.0, "mm": 0.1, "in": 2.54, "ft": 30.48}),
    ),
    "m2": Unit("m²", "square metres", _same("m2", "m²") | _times({"ft2": _FOOT**2, "cm2": 1e-4})),
    "m3": Unit(
        "m³",
        "cubic metres",
        _same("m3", "m³", "cbm") | _times({"l": 1e-3, "litres": 1e-3, "litre": 1e-3, "hl": 0.1, "ft3": _FOOT**3}),
    ),
    "m3/h": Unit(
        "m³/h",
        "cubic metres an hour",
        _same("m3/h", "m³/h") | _times({"m3/min": 60.0, "m3/s": 3600.0, "l/s": 3.6}),
    ),
    "m3/h t": Unit(
        "m³/h t", "cubic metres an hour for each tonne", _same("m3/h t", "m³/h t", "m3/t h", "m³/t h", "m3/ht")
    ),
    "m3/t": Unit("m³/t", "cubic metres a tonne", _same("m3/t", "m³/t", "l/kg")),
    "kg/m3": Unit("kg/m³", "kilograms a cubic metre", _same("kg/m3", "kg/m³") | _times({"kg/hl": 10.0})),
    "kg/h": Unit("kg/h", "kilograms an hour", _same("kg/h") | _times({"g/h": 1e-3})),
    "Pa": Unit("Pa", "pascals", _same("pa") | _times({"kpa": 1000.0, "mbar": 100.0})),
    "ppm": Unit("ppm", "parts per million", _same("ppm") | _times({"%": 10_000.0})),
    "mg/L": Unit("mg/L", "milligrams a litre", _same("mg/l", "ppm")),
    "mg/m3": Unit("mg/m³", "milligrams a cubic metre", _same("mg/m3", "mg/m³")),
    "mg/kg h": Unit("mg/kg h", "milligrams a kilogram and hour", _same("mg/kg h", "mg/kg/h")),
    "g/kg": Unit("g/kg", "grams a kilogram", _same("g/kg", "kg/t") | _times({"%": 10.0, "mg/kg": 1e-3, "ppm": 1e-3})),
    "kW": Unit("kW", "kilowatts", _same("kw") | _times({"w": 1e-3})),
    "kW/t": Unit("kW/t", "kilowatts a tonne", _same("kw/t", "w/kg")),
    "W/m2 K": Unit("W/m² K", "watts a square metre and kelvin", _same("w/m2 k", "w/m² k", "w/m2k")),
    "kWh": Unit("kWh", "kilowatt hours", _same("kwh") | _times({"mj": 1 / 3.6})),
    "degrees": Unit("°", "degrees", _same("°", "deg", "degrees")),
    "per min": Unit("a minute", "a minute", _same("/min", "per min", "a minute")),
    "L": Unit("L", "litres", _same("l", "litre", "litres") | _times({"m3": 1000.0, "hl": 100.0})),
    "corns": Unit("corns", "corns", _same("corns", "corn")),
    "kg/m2": Unit("kg/m²", "kilograms a square metre", _same("kg/m2", "kg/m²") | _times({"t/m2": 1000.0})),
    "m/s": Unit("m/s", "metres a second", _same("m/s") | _times({"m/min": 1 / 60, "cm/s": 0.01})),
    "Pa/m": Unit("Pa/m", "pascals a metre", _same("pa/m")),
    "EBC": Unit("EBC", "EBC units", _same("ebc", "°ebc")),
    "% of the consent": Unit("% of the consent", "per cent of the consent", _same("% of the consent", "%")),
    "% of its time": Unit("% of its time", "per cent of its time", _same("% of its time", "%")),
    "times": Unit("times", "times", _same("times")),
    "pairs": Unit("pairs", "pairs", _same("pairs", "pair")),
}


def shown(unit: str) -> str:
    """How a unit is written behind a number; a unit not listed is written as it is."""
    known = UNITS.get(unit)
    return known.show if known else unit


def convert(value: float, typed: str, unit: str) -> float | None:
    """A typed value in our unit, or None when the typed unit does not fit.

    Parameters
    ----------
    value : float
        The number typed.
    typed : str
        The unit typed behind it, any case; blank means our unit.
    unit : str
        Our unit, a key of ``UNITS``.
    """
    name = " ".join(typed.lower().split()).rstrip(".")
    if not name:
        return value
    pair = UNITS[unit].accepts.get(name)
    if pair is None:
        return None
    factor, offset = pair
    return value * factor + offset


_STEPS = {"C": "0.1", "%": "0.1", "K": "0.1", "g": "1", "kg": "10", "cm": "0.5", "L": "5", "min": "1", "h": "0.25"}


def step_of(question: Number) -> str:
    """By how much one tap changes a number, as text: what its instrument shows, whole numbers by one."""
    return "1" if question.whole else _STEPS.get(question.unit, "1")
