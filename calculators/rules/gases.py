"""Gases of a maltings that kill: what laws and authorities publish for people at work, as data.

Every page, sheet, case and drawing takes its figures from here. A value is for rooms where people
work, with a meter running; none of them says anything of a vessel, or of the next minute.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

Kind = Literal["day", "short", "ceiling", "danger"]
Force = Literal["law", "advised", "indicative"]
HowRead = Literal["read", "in a copy", "second-hand", "from memory"]


class GasLimit(NamedTuple):
    """One published value for one gas.

    ``minutes`` is the period that it is a mean over; 0 is for a reading. A *day* value is a mean over a
    shift, a *short* one over some minutes, a *ceiling* is never to be passed, *danger* is immediately
    dangerous to life or health. ``source`` is an id of ``calculators.sources``; ``how_read`` is how this
    very figure was read, which may be less than its source. ``printed_mg_m3`` is what is printed beside
    it, at ``printed_at_c``.
    """

    id: str
    gas: str
    where: str
    kind: Kind
    ppm: float
    minutes: float
    force: Force
    source: str
    how_read: HowRead = "read"
    printed_mg_m3: float | None = None
    printed_at_c: float | None = None
    remark: str = ""


PLACES = {
    "us": "United States",
    "uk": "United Kingdom",
    "eu": "European Union",
    "de": "Germany",
    "at": "Austria",
    "fr": "France",
    "au": "Australia",
}
"""Whose values they are."""

CO2, CO, H2S, SO2 = "carbon-dioxide", "carbon-monoxide", "hydrogen-sulphide", "sulphur-dioxide"
PH3, CL2, NH3 = "phosphine", "chlorine", "ammonia"
GASES = (CO2, CO, H2S, SO2, PH3, CL2, NH3)

DAY, TEN_HOURS, QUARTER = 480.0, 600.0, 15.0

LIMITS = (
    GasLimit("co2-us-day", CO2, "us", "day", 5000, DAY, "law", "niosh-co2", "read", 9000, 25),
    GasLimit("co2-us-ten", CO2, "us", "day", 5000, TEN_HOURS, "advised", "niosh-co2", "read", 9000, 25),
    GasLimit("co2-us-short", CO2, "us", "short", 30_000, QUARTER, "advised", "niosh-co2"),
    GasLimit("co2-uk-day", CO2, "uk", "day", 5000, DAY, "law", "eh40", "second-hand", 9150, 20),
    GasLimit("co2-uk-short", CO2, "uk", "short", 15_000, QUARTER, "law", "eh40", "second-hand", 27_400, 20),
    GasLimit("co2-eu-day", CO2, "eu", "day", 5000, DAY, "indicative", "eu-2006-15", "second-hand", 9000),
    GasLimit("co2-de-day", CO2, "de", "day", 5000, DAY, "law", "trgs-900", "second-hand", 9100, 20),
    GasLimit("co2-de-short", CO2, "de", "short", 10_000, QUARTER, "law", "trgs-900", "second-hand"),
    GasLimit("co2-at-day", CO2, "at", "day", 5000, DAY, "law", "austria-mak", "second-hand", 9000),
    GasLimit("co2-at-ceiling", CO2, "at", "ceiling", 10_000, 0, "law", "austria-mak", "second-hand"),
    GasLimit("co2-danger", CO2, "us", "danger", 40_000, 0, "advised", "niosh-co2"),
    GasLimit("co-us-day", CO, "us", "day", 50, DAY, "law", "niosh-co"),
    GasLimit("co-us-ten", CO, "us", "day", 35, TEN_HOURS, "advised", "niosh-co"),
    GasLimit("co-us-ceiling", CO, "us", "ceiling", 200, 0, "advised", "niosh-co"),
    GasLimit("co-uk-day", CO, "uk", "day", 20, DAY, "law", "eh40", "second-hand"),
    GasLimit("co-uk-short", CO, "uk", "short", 100, QUARTER, "law", "eh40", "second-hand"),
    GasLimit("co-eu-day", CO, "eu", "day", 20, DAY, "law", "eu-2004-37", "read", 23),
    GasLimit("co-eu-short", CO, "eu", "short", 100, QUARTER, "law", "eu-2004-37", "read", 117),
    GasLimit("co-danger", CO, "us", "danger", 1200, 0, "advised", "niosh-co", "second-hand"),
    GasLimit("h2s-us-ceiling", H2S, "us", "ceiling", 20, 0, "law", "niosh-h2s"),
    GasLimit("h2s-us-peak", H2S, "us", "short", 50, 10, "law", "niosh-h2s", remark="once, above the ceiling"),
    GasLimit("h2s-us-ten", H2S, "us", "short", 10, 10, "advised", "niosh-h2s", remark="ceiling"),
    GasLimit("h2s-uk-day", H2S, "uk", "day", 5, DAY, "law", "eh40", "from memory"),
    GasLimit("h2s-uk-short", H2S, "uk", "short", 10, QUARTER, "law", "eh40", "from memory"),
    GasLimit("h2s-eu-day", H2S, "eu", "day", 5, DAY, "indicative", "scoel-h2s", "second-hand", 7),
    GasLimit("h2s-eu-short", H2S, "eu", "short", 10, QUARTER, "indicative", "scoel-h2s", "second-hand", 14),
    GasLimit("h2s-danger", H2S, "us", "danger", 100, 0, "advised", "niosh-h2s", "second-hand"),
    GasLimit("so2-us-day", SO2, "us", "day", 5, DAY, "law", "niosh-so2"),
    GasLimit("so2-us-ten", SO2, "us", "day", 2, TEN_HOURS, "advised", "niosh-so2"),
    GasLimit("so2-us-short", SO2, "us", "short", 5, QUARTER, "advised", "niosh-so2"),
    GasLimit("so2-uk-day", SO2, "uk", "day", 0.5, DAY, "law", "eh40", "from memory"),
    GasLimit("so2-uk-short", SO2, "uk", "short", 1, QUARTER, "law", "eh40", "from memory"),
    GasLimit("so2-eu-day", SO2, "eu", "day", 0.5, DAY, "indicative", "eu-2017-164", "read", 1.3),
    GasLimit("so2-eu-short", SO2, "eu", "short", 1, QUARTER, "indicative", "eu-2017-164", "read", 2.7),
    GasLimit("so2-danger", SO2, "us", "danger", 100, 0, "advised", "niosh-so2", "second-hand"),
    GasLimit("ph3-us-day", PH3, "us", "day", 0.3, DAY, "law", "niosh-ph3"),
    GasLimit("ph3-us-ten", PH3, "us", "day", 0.3, TEN_HOURS, "advised", "niosh-ph3"),
    GasLimit("ph3-us-short", PH3, "us", "short", 1, QUARTER, "advised", "niosh-ph3"),
    GasLimit("ph3-uk-day", PH3, "uk", "day", 0.1, DAY, "law", "ser-limits", "second-hand", 0.14),
    GasLimit("ph3-uk-short", PH3, "uk", "short", 0.2, QUARTER, "law", "ser-limits", "second-hand", 0.28),
    GasLimit("ph3-eu-day", PH3, "eu", "day", 0.1, DAY, "indicative", "eu-2006-15", "second-hand", 0.14),
    GasLimit("ph3-eu-short", PH3, "eu", "short", 0.2, QUARTER, "indicative", "eu-2006-15", "second-hand", 0.28),
    GasLimit("ph3-fr-day", PH3, "fr", "day", 0.1, DAY, "law", "phosphine-fr", "in a copy", 0.14, 20),
    GasLimit("ph3-au-day", PH3, "au", "day", 0.3, DAY, "law", "grdc-phosphine", remark="to 30 Nov 2026"),
    GasLimit("ph3-au-new", PH3, "au", "day", 0.05, DAY, "law", "grdc-phosphine", remark="from 1 Dec 2026"),
    GasLimit("ph3-danger", PH3, "us", "danger", 50, 0, "advised", "niosh-ph3"),
    GasLimit("cl2-us-ceiling", CL2, "us", "ceiling", 1, 0, "law", "niosh-cl2"),
    GasLimit("cl2-us-short", CL2, "us", "short", 0.5, QUARTER, "advised", "niosh-cl2", remark="ceiling"),
    GasLimit("cl2-uk-short", CL2, "uk", "short", 0.5, QUARTER, "law", "ser-limits", "second-hand", 1.5),
    GasLimit("cl2-eu-short", CL2, "eu", "short", 0.5, QUARTER, "indicative", "eu-2006-15", "second-hand", 1.5),
    GasLimit("cl2-danger", CL2, "us", "danger", 10, 0, "advised", "niosh-cl2"),
    GasLimit("nh3-us-day", NH3, "us", "day", 50, DAY, "law", "niosh-nh3", "in a copy"),
    GasLimit("nh3-us-ten", NH3, "us", "day", 25, TEN_HOURS, "advised", "niosh-nh3", "in a copy"),
    GasLimit("nh3-us-short", NH3, "us", "short", 35, QUARTER, "advised", "niosh-nh3", "in a copy"),
    GasLimit("nh3-uk-day", NH3, "uk", "day", 25, DAY, "law", "eh40", "second-hand"),
    GasLimit("nh3-uk-short", NH3, "uk", "short", 35, QUARTER, "law", "eh40", "second-hand"),
    GasLimit("nh3-eu-day", NH3, "eu", "day", 20, DAY, "indicative", "eu-2000-39", "second-hand", 14),
    GasLimit("nh3-eu-short", NH3, "eu", "short", 50, QUARTER, "indicative", "eu-2000-39", "from memory", 36),
    GasLimit("nh3-danger", NH3, "us", "danger", 300, 0, "advised", "niosh-nh3", "second-hand"),
)
"""Every value once.

For carbon dioxide 9,000 and 9,150 mg/m3 are the same 5,000 ppm at 25 C and at 20 C; the 9,000 of the
European Union is 9,148 rounded. What was not read in print says so.
"""

UNCONSCIOUS_PPM = 70_000.0
"""Carbon dioxide from which people lose consciousness within a few minutes [ppm] (NIOSH, read)."""

OXYGEN_ALARM_PERCENT = 19.5
"""Oxygen below which American law calls an atmosphere hazardous, 29 CFR 1910.146 [%]."""


def limits_of(gas: str, *, where: str = "", kinds: tuple[Kind, ...] = ()) -> list[GasLimit]:
    """Give the published values for a gas.

    Parameters
    ----------
    gas : str
        Its id, one of :data:`GASES`.
    where : str, optional
        Id of a place of :data:`PLACES`; all of them when left out.
    kinds : tuple of str, optional
        Which kinds; all of them when left out.

    Returns
    -------
    list of GasLimit
        In the order of :data:`LIMITS`.

    Raises
    ------
    KeyError
        When there is no such gas.
    """
    if gas not in GASES:
        raise KeyError(gas)
    return [
        limit
        for limit in LIMITS
        if limit.gas == gas and where in ("", limit.where) and (not kinds or limit.kind in kinds)
    ]


def strictest(gas: str, *kinds: Kind) -> GasLimit:
    """Give the lowest published value of some kinds, in any country.

    Raises
    ------
    KeyError
        When there is no such gas, or nothing of these kinds is published for it.

    Examples
    --------
    >>> strictest(CO2, "ceiling", "short").ppm, strictest(CO2, "day").ppm, strictest(CO2, "danger").ppm
    (10000, 5000, 40000)
    """
    found = limits_of(gas, kinds=kinds)
    if not found:
        raise KeyError(f"{gas}: nothing of {kinds}")
    # of values that are alike the one for a reading comes first: it asks for no minutes
    return min(found, key=lambda limit: (limit.ppm, limit.minutes))


def order_to_leave(gas: str, ppm: float) -> GasLimit | None:
    """Give the published value by which a reading orders people out, if one does.

    A reading is held against the strictest ceiling or short-term value of any country, and against what
    is dangerous at once; reaching it is enough. A mean over a day judges no reading.

    Returns
    -------
    GasLimit or None
        What is dangerous at once when the reading has reached it, else the strictest ceiling or
        short-term value when it has reached that. None orders nothing, and allows nothing either.

    Raises
    ------
    KeyError
        When there is no such gas.

    Examples
    --------
    >>> order_to_leave(CO2, 12_000.0).id, order_to_leave(CO2, 300_000.0).id, order_to_leave(CO2, 9_999.0)
    ('co2-at-ceiling', 'co2-danger', None)
    """
    for limit in (strictest(gas, "danger"), strictest(gas, "ceiling", "short")):
        if ppm >= limit.ppm:
            return limit
    return None
