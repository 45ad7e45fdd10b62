"""How much of its time in store a lot of barley has spent, and how many days are left of it, drier or cooler."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Belongs, Found, Heading, Listing, Note, Outcome, Rows, Sheet, Table
from ..asking.figures import carried, fixed, plain_number
from ..models.grain.storage_time import (
    COOLEST_C,
    DAYS,
    DOUBT,
    MOISTURE,
    PUBLISHED_DAYS,
    TEMP_C,
    allowed_days,
    spent_share,
)
from ..rules.limits import store_through_the_year as edges
from ..rules.limits.intake_and_storage import STORE_MOISTURE, STORE_TEMP
from ..rules.lines import passed
from ..words import within
from ..words.limits import limit_notes
from ..words.questions.shared import number

_WETTER = "No figure is published for wetter malting barley: dry it now, whatever the days."
_WARMER = "No figure is published for warmer barley: cool it now."
_DRIEST = PUBLISHED_DAYS[0][0]

spells = Table(
    "spells",
    "Where it has lain since harvest",
    (
        number("lain_days", "Days", "days", DAYS, example="15"),
        number("spell_moisture", "Moisture", "%", MOISTURE, example="17", reason=_WETTER),
        number("spell_temp_c", "Warmth", "C", TEMP_C, example="21", reason=_WARMER),
    ),
    min_rows=1,
    max_rows=12,
    hint="One row for each time that moisture or warmth changed. The warmest spot, not the mean of the bin.",
    example="15 17 21; 30 13 18",
)
kept_moisture = number(
    "kept_moisture", "Moisture from now on", "%", MOISTURE, "As it lies, or as it would be dried to.", example="13",
    reason=_WETTER,
)  # fmt: skip
kept_temp_c = number(
    "kept_temp_c", "Warmth from now on", "C", TEMP_C, "The warmest spot.", example="15", reason=_WARMER
)


def work(*, spells: tuple[tuple[float, float, float], ...], kept_moisture: float, kept_temp_c: float) -> Outcome:
    """Add up what part of the days each spell has spent, and carry the rest over."""
    allowed = [allowed_days(moisture=moisture, temp_c=temp_c) for _, moisture, temp_c in spells]
    spent = spent_share(spells=spells)
    if spent > 1000.0:
        raise AskAgain("spells", "that is more than ten times all the days there are. Check days, moisture and warmth.")
    ahead = allowed_days(moisture=kept_moisture, temp_c=kept_temp_c)
    summed = " + ".join(
        f"{plain_number(days)} / {carried(most)}" for (days, *_), most in zip(spells, allowed, strict=True)
    )
    found = [Found("spent", spent, f"100 × ({summed}) = {fixed(spent, 0)} %", spent / DOUBT.high, spent / DOUBT.low)]
    left = (100.0 - spent) / 100.0 * ahead
    if left > 0.0:
        least = max(0.0, (100.0 - spent / DOUBT.low) / 100.0 * ahead * DOUBT.low)
        most = (100.0 - spent / DOUBT.high) / 100.0 * ahead * DOUBT.high
        found.append(
            Found(
                "days_left",
                left,
                f"(100 − {carried(spent)}) / 100 × {carried(ahead)} days = {fixed(left, 0)} days",
                least,
                most,
            )
        )
    found.append(Found("days_all", ahead, "the published days, carried to this moisture and warmth"))
    lines = [passed(edges.SPENT, spent), passed(STORE_MOISTURE, kept_moisture), passed(STORE_TEMP, kept_temp_c)]
    rows = [
        (float(place), *spell, most, 100.0 * spell[0] / most)
        for place, (spell, most) in enumerate(zip(spells, allowed, strict=True), 1)
    ]
    return Outcome(
        tuple(found), (Rows("each", rows),), (*limit_notes(lines), *_remarks(spells, kept_moisture, kept_temp_c))
    )


def _remarks(spells: tuple[tuple[float, float, float], ...], moisture: float, temp_c: float) -> list[Note]:
    notes = [
        Note(
            "remark",
            "Only a count knows whether it still grows: [[page:procedures/germination-test|germination test]], each "
            "month.",
        )
    ]
    if min(temp_c, *(temp for *_, temp in spells)) < COOLEST_C - 1e-9:
        notes.append(
            Note(
                "remark",
                f"Cooler than {fixed(COOLEST_C, 1)} °C is reckoned as that: it keeps longer, by nobody knows how much.",
            )
        )
    if min(moisture, *(wet for _, wet, _ in spells)) < _DRIEST - 1e-9:
        notes.append(Note("remark", f"Drier than {plain_number(_DRIEST)} % is reckoned as that: it keeps longer."))
    return notes


_MOST_DAYS = within.between(0.0, 2000.0, "No figure reaches so far.", "kept_moisture", "kept_temp_c")

SHEET = Sheet(
    id="storage-time",
    title="Time in store",
    purpose="How much of its time a lot of barley has spent, and what is left of it drier or cooler.",
    questions=(spells, kept_moisture, kept_temp_c),
    answers=(
        Answer(
            "spent",
            "Of its time it has spent",
            "%",
            0,
            lead=True,
            rests_on="days lain over days that are to be had, added up",
            trust="The published days are called approximate by those who published them. From two thirds to one and a "
            "half times as long is our judgement.",
            next="The job: [[page:procedures/store-through-the-year|the store through the year]].",
            within=within.between(0.0, 2000.0, "No grain lives so long.", "spells"),
        ),
        Answer(
            "days_left",
            "Left from now on",
            "days",
            0,
            lead=True,
            rests_on="the part that is left, of the days at the moisture and warmth from now on",
            trust="Dormancy, rain before harvest and broken corns are in none of it: barley that stood in rain lost "
            "its "
            "energy in under six months.",
            next="Count the energy well before. A lot that is near its end goes to the steep first.",
            within=_MOST_DAYS,
        ),
        Answer(
            "days_all",
            "To be had by fresh barley kept so",
            "days",
            0,
            rests_on="North Dakota State University, by germination; between its moistures a straight line of "
            "logarithms",
            trust="Figures for 13 to 18 % at 21 °C, and at 14 % for 15.6 and 26.7 °C.",
            worked="model",
            within=_MOST_DAYS,
        ),
    ),
    listings=(
        Listing(
            "each",
            "Each spell",
            (
                Heading("spell", "Spell", within=within.count(12.0)),
                Heading(
                    "lain_days", "Days", "days", 1, within=within.between(0.0, DAYS.high, "Nobody keeps it longer.")
                ),
                Heading("moisture", "Moisture", "%", 1, within=within.moisture("spells")),
                Heading(
                    "temp", "Warmth", "C", 1, within=within.between(TEMP_C.low, TEMP_C.high, "The figures end there.")
                ),
                Heading("allowed", "To be had", "days", within=_MOST_DAYS),
                Heading("part", "Spent", "%", within=within.between(0.0, 2000.0, "No grain lives so long.", "spells")),
            ),
        ),
    ),
    work=work,
    belongs=(
        Belongs("moisture", ("kept_moisture",)),
        Belongs("temp_c", ("kept_temp_c",)),
    ),
    sources=("hellevang-2009", "hellevang-2019", "safestor"),
    story="A wet load of the example maltings, dried after two weeks: invented numbers.",
)
