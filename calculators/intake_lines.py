"""The checks of barley at the gate, each held against its limit, and what each line says."""

from __future__ import annotations

from typing import Literal, NamedTuple

from .declare import AskAgain
from .figures import plain_number
from .units import shown

Word = Literal["take", "dry", "rest", "reject", "not tested"]


class Check(NamedTuple):
    """A figure held against one upper limit of the house."""

    id: str
    label: str
    unit: str
    low: float
    high: float
    hint: str
    example: str
    limit: str
    source: str
    places: int = 1


# Each default is a published value; the house's own limit replaces it.
CHECKS = (
    Check(
        "screenings_percent", "Screenings", "%", 0, 100, "Thin corns through the screen.", "3.5", "5",
        "7 CFR 810.205: thin barley, grade 1 (in a copy)",
    ),
    Check(
        "nitrogen_percent", "Nitrogen in dry matter", "%", 0.5, 4, "Protein divided by 6.25.", "1.62", "1.75",
        "MAGB, barley for brewing 1.55 to 1.75 (read, said of trials)", 2,
    ),
    Check(
        "pre_germinated_percent", "Pre-germinated", "%", 0, 100, "Rootlet or acrospire already begun.", "0", "0",
        "MEBAK: visible pre-germination is grounds to reject (read)",
    ),
    Check(
        "split_skinned_percent", "Split and skinned", "%", 0, 100, "Broken corns too.", "1.5", "4",
        "7 CFR 810.205: skinned and broken, grade 1 (in a copy)",
    ),
    Check(
        "ergot_g_kg", "Ergot", "g/kg", 0, 100, "Dark bodies picked from a weighed sample.", "0", "0.2",
        "Regulation (EU) 2023/915 (second-hand); many contracts allow none", 2,
    ),
    Check(
        "admixture_percent", "Admixture", "%", 0, 100, "Other grain, seeds, stones, straw.", "0.6", "2",
        "7 CFR 810.205: other grains, grade 1 (in a copy)",
    ),
    Check(
        "temperature_c", "Grain temperature", "C", -20, 80, "With a probe, deep in the load.", "19", "30",
        "Oxford Companion: barley is rested at 25 to 30 °C (read); hotter is heating until shown otherwise", 0,
    ),
)  # fmt: skip


class Line(NamedTuple):
    """One check as decided: what was found, against what, and what it says."""

    label: str
    found: str
    limit: str
    says: Word
    source: str
    remark: str = ""


def moisture_line(value: float, limit: float) -> Line:
    """Moisture: over its limit the load is dried."""
    says: Word = "take" if value <= limit else "dry"
    return Line("Moisture", f"{plain_number(value)} %", f"{plain_number(limit)} % at most", says, "MAGB (read)")


def germination_lines(
    energy: float | None, capacity: float | None, limit: float, reject: float, wanted: float
) -> list[Line]:
    """Energy and capacity: dead corns are not taken, sleeping ones are rested.

    Raises
    ------
    AskAgain
        When no figure is given, or a low energy without the capacity that tells sleeping from dead.
    """
    if reject > wanted:
        raise AskAgain(
            "capacity_reject_percent",
            f"{plain_number(reject)} % is above the capacity wanted, {plain_number(wanted)} %. "
            f"Type a number up to {plain_number(wanted)}.",
        )
    if energy is None and capacity is None:
        raise AskAgain(
            "capacity_percent",
            "no germination figure is given. Give the capacity, or the energy, or both, in per cent.",
        )
    if energy is not None and energy < limit and capacity is None:
        raise AskAgain(
            "capacity_percent",
            f"an energy of {plain_number(energy)} % is under {plain_number(limit)} %. Give the capacity too: it tells "
            "sleeping barley, which is rested, from dead barley, which is not taken.",
        )
    says: Word = "not tested"
    remark = ""
    if capacity is not None:
        says = "take" if capacity >= wanted else "reject"
        if says == "reject" and capacity >= reject:
            remark = " (grey band: repeat on a fresh sample)"
    shown_capacity = "–" if capacity is None else f"{plain_number(capacity)} %"
    lines = [
        Line("Capacity", shown_capacity, f"{plain_number(wanted)} % at least", says, "MAGB, Montana (read)", remark)
    ]
    says = "not tested" if energy is None else "take" if energy >= limit else "rest"
    shown_energy = "–" if energy is None else f"{plain_number(energy)} %"
    return [Line("Energy", shown_energy, f"{plain_number(limit)} % at least", says, "Montana (read)"), *lines]


def figure_line(check: Check, value: float | None, limit: float) -> Line:
    """A figure over its limit speaks against the load."""
    unit = shown(check.unit)
    against = f"{plain_number(limit)} {unit} at most"
    if value is None:
        return Line(check.label, "–", against, "not tested", check.source)
    says: Word = "take" if value <= limit else "reject"
    return Line(check.label, f"{plain_number(value)} {unit}", against, says, check.source)


def word_line(label: str, word: str, wanted: str, source: str) -> Line:
    """A word other than the wanted one speaks against the load."""
    return Line(label, word, wanted, "take" if word == wanted else "reject", source)
