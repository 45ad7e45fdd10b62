"""What the drains carry away in a batch, in a mean day and on the busiest one, against what the consent says."""

from __future__ import annotations

from math import ceil

from ..asking.declare import Answer, AskAgain, Belongs, Found, Heading, Listing, Option, Outcome, Rows, Sheet, Table
from ..asking.figures import carried, few_digits, fixed, plain_number
from ..models.bed.respiration import O2_PER_KG
from ..models.bounds import Bounds
from ..models.steep.effluent import (
    BOD_OF_COD,
    BOD_OF_COD_ENDS,
    LEACHED_PERCENT,
    LEAST_SHARE,
    MOST_SHARE,
    PERSON_G_DAY,
    STRENGTH_MG_L,
    WATER_M3,
    leached_demand_kg,
    persons,
    strength_mg_l,
)
from ..rules.effluent import Share, against_consent
from ..words import within
from ..words.effluent import notes_of
from ..words.questions.shared import barley_kg, dry_matter_lost, number
from ..words.questions.shared import barley_moisture as asked_moisture
from ..words.questions.week import effluent_m3_day

waters = Table(
    "waters",
    "Each water let go, first to last",
    (
        number("m3", "Water", "m3", WATER_M3, example="9"),
        number("mg_l", "Its COD, analysed", "mg/L", STRENGTH_MG_L)._replace(optional=True),
    ),
    min_rows=1,
    max_rows=12,
    hint="By the meter, overflow and rinses too. COD is the oxygen demand that your own laboratory found: for all "
    "waters, or for none.",
    example="9; 8; 7",
)
batches_week = number("batches_week", "Batches a week", "", Bounds(0.1, 500.0), "In the busiest season.", example="3")
batches_day = number(
    "batches_day", "Batches that drain on one day", "", Bounds(1.0, 100.0), "On the busiest one.", default="1"
)._replace(whole=True)
wash_m3 = number("wash_m3", "Water of washing, each batch", "m3", Bounds(0.0, 10_000.0), default="0")
wash_mg_l = number("wash_mg_l", "Its COD, analysed", "mg/L", STRENGTH_MG_L)._replace(optional=True)
bod_share = number(
    "bod_share",
    "BOD for each 100 of COD, analysed",
    "%",
    Bounds(5.0, 100.0),
    f"Blank: {plain_number(100.0 * BOD_OF_COD)}, with {plain_number(100.0 * BOD_OF_COD_ENDS.low)} to "
    f"{plain_number(100.0 * BOD_OF_COD_ENDS.high)} left open.",
)._replace(optional=True)
solids_mg_l = number(
    "solids_mg_l", "Suspended solids, analysed", "mg/L", STRENGTH_MG_L, "Of all waters together."
)._replace(optional=True)
consent_kg_day = number(
    "consent_kg_day", "Consent: COD in a day", "kg", Bounds(0.01, 100_000.0), "Blank: it names none.", example="60"
)._replace(optional=True, in_view=True)
consent_mg_l = number(
    "consent_mg_l", "Consent: COD at most", "mg/L", STRENGTH_MG_L, "At the drain. Blank: it names none."
)._replace(optional=True, in_view=True)


def work(
    *,
    barley_kg: float,
    barley_moisture: float,
    waters: tuple[tuple[float, float | None], ...],
    batches_week: float,
    batches_day: float,
    dry_matter_lost: float,
    wash_m3: float,
    wash_mg_l: float | None,
    bod_share: float | None,
    solids_mg_l: float | None,
    effluent_m3_day: float | None,
    consent_kg_day: float | None,
    consent_mg_l: float | None,
) -> Outcome:
    """Estimate the load of one batch, or sum up its analyses; carry it to a day; hold it against the consent."""
    if wash_mg_l is not None and not wash_m3:
        raise AskAgain("wash_m3", "an analysis of wash water needs its cubic metres. Type more than 0, or blank it.")
    _no_more_than_the_week(batches_day, batches_week)
    steep_m3 = sum(m3 for m3, _ in waters)
    water_m3 = steep_m3 + wash_m3
    wash_unknown = wash_m3 > 0.0 and wash_mg_l is None
    load_m3 = steep_m3 if wash_unknown else water_m3  # water of no known load thins no strength
    analysed = _analysed(waters)
    load, low, high, working = (
        _of_analyses(waters) if analysed else _of_barley(barley_kg, barley_moisture, dry_matter_lost)
    )
    if wash_mg_l is not None:
        more = wash_m3 * wash_mg_l / 1000.0
        load, low, high = load + more, low + more, high + more
        working += f"; + {plain_number(wash_m3)} m³ × {plain_number(wash_mg_l)} mg/L / 1000 = {fixed(load, 1)} kg"
    per_day, mean = batches_day, batches_week / 7.0
    said = carried(load)
    strength = strength_mg_l(load_kg=load, water_m3=load_m3)
    part = BOD_OF_COD if bod_share is None else bod_share / 100.0

    def open_to(factor: float, of_low: float = 1.0, of_high: float = 1.0) -> tuple[float | None, float | None]:
        """Both ends of a figure that goes with the load; none where analyses leave nothing open."""
        least, most = factor * low * of_low, factor * high * of_high
        return (least, most) if most > least else (None, None)

    ends = BOD_OF_COD_ENDS if bod_share is None else Bounds(part, part)
    bod = mean * load * part
    sum_m3 = " + ".join(f"{plain_number(m3)}" for m3 in [*(m3 for m3, _ in waters), *([wash_m3] if wash_m3 else [])])
    found = [
        Found("cod_kg", load, working, *open_to(1.0)),
        Found("water_m3", water_m3, f"{sum_m3} = {fixed(water_m3, 1)} m³"),
        Found(
            "strength",
            strength,
            f"1000 × {said} kg / {plain_number(load_m3)} m³ = {fixed(strength, 0)} mg/L",
            *open_to(strength / load),
        ),
        Found(
            "day_kg",
            per_day * load,
            f"{plain_number(per_day)} × {said} kg = {fixed(per_day * load, 1)} kg",
            *open_to(per_day),
        ),
        Found(
            "day_m3",
            per_day * water_m3,
            f"{plain_number(per_day)} × {plain_number(water_m3)} m³ = {fixed(per_day * water_m3, 1)} m³",
        ),
        Found(
            "mean_kg",
            mean * load,
            f"{plain_number(batches_week)} × {said} kg / 7 = {fixed(mean * load, 1)} kg",
            *open_to(mean),
        ),
        Found(
            "bod_kg",
            bod,
            f"{carried(mean * load)} kg × {plain_number(part)} = {fixed(bod, 1)} kg",
            *open_to(mean, *ends),
        ),
        Found(
            "persons",
            persons(bod_kg_day=bod),
            f"1000 × {carried(bod)} kg / {plain_number(PERSON_G_DAY)} g = {fixed(persons(bod_kg_day=bod), 0)}",
            *open_to(persons(bod_kg_day=1.0) * mean, *ends),
        ),
        Found(
            "m3_tonne",
            1000.0 * steep_m3 / barley_kg,
            f"1000 × {plain_number(steep_m3)} m³ / {plain_number(barley_kg)} kg = "
            f"{fixed(1000.0 * steep_m3 / barley_kg, 1)} m³/t",
        ),
    ]
    if solids_mg_l is not None:
        solids = solids_mg_l * water_m3 / 1000.0
        found.append(
            Found(
                "solids_kg",
                solids,
                f"{plain_number(solids_mg_l)} mg/L × {plain_number(water_m3)} m³ / 1000 = {fixed(solids, 1)} kg",
            )
        )
    shares = _shares(found, analysed, waters, wash_mg_l, m3=effluent_m3_day, kilos=consent_kg_day, most=consent_mg_l)
    verdict = against_consent([Share(float(one.value), *_ends(one)) for one in shares]) if shares else None  # type: ignore[arg-type]
    if verdict is not None:
        by_analyses = verdict.word == "less" and analysed and not wash_unknown
        found.insert(0, Found("verdict", "less-analysed" if by_analyses else verdict.word))
    notes = notes_of(verdict, analysed=analysed, washed=wash_unknown)
    rows = [
        (float(place), m3, mg_l, m3 * mg_l / 1000.0) for place, (m3, mg_l) in enumerate(waters, 1) if mg_l is not None
    ]
    return Outcome(tuple(found + shares), (Rows("each", rows),) if analysed else (), notes)


def _no_more_than_the_week(day: float, week: float) -> None:
    most = ceil(week)  # 3.5 a week are 4 in some week
    if day > most:
        raise AskAgain(
            "batches_day",
            f"{plain_number(day)} on one day is more than the {plain_number(week)} of a whole week. Type "
            f"{'1' if most == 1 else f'from 1 to {most}'}, or more batches a week.",
        )


def _ends(one: Found) -> tuple[float, float]:
    value = float(one.value)  # type: ignore[arg-type]
    return (value if one.low is None else one.low, value if one.high is None else one.high)


def _analysed(waters: tuple[tuple[float, float | None], ...]) -> bool:
    known = [mg_l is not None for _, mg_l in waters]
    if any(known) and not all(known):
        raise AskAgain(
            "waters",
            f"water {known.index(False) + 1} has no analysis and others have one. Type a COD for every water, or for "
            "none.",
        )
    return all(known)


def _of_analyses(waters: tuple[tuple[float, float | None], ...]) -> tuple[float, float, float, str]:
    load = sum(m3 * (mg_l or 0.0) for m3, mg_l in waters) / 1000.0
    summed = " + ".join(f"{plain_number(m3)} × {plain_number(mg_l or 0.0)}" for m3, mg_l in waters)
    return load, load, load, f"({summed}) / 1000 = {fixed(load, 1)} kg"


def _of_barley(barley_kg: float, moisture: float, lost: float) -> tuple[float, float, float, str]:
    least, most = LEACHED_PERCENT.low, LEACHED_PERCENT.high
    if lost < least:
        raise AskAgain(
            "dry_matter_lost",
            f"some always leaches. Type from {plain_number(least)} to {plain_number(most)} %, or the analysis of each "
            "water.",
        )
    load = leached_demand_kg(barley_kg=barley_kg, barley_moisture=moisture, leached_percent=lost)
    if load < 0.05:
        raise AskAgain("barley_kg", f"that would be {few_digits(load)} kg of oxygen demand: too little to say of it.")
    dry = barley_kg * (100.0 - moisture) / 100.0
    working = (
        f"{plain_number(barley_kg)} kg × (100 − {plain_number(moisture)}) / 100 = {carried(dry)} kg dry; "
        f"{carried(dry)} kg × {plain_number(lost)} / 100 × {carried(O2_PER_KG)} = {fixed(load, 1)} kg"
    )
    return load, LEAST_SHARE * load, MOST_SHARE * load, working


def _shares(
    found: list[Found],
    analysed: bool,
    waters: tuple[tuple[float, float | None], ...],
    wash_mg_l: float | None,
    *,
    m3: float | None,
    kilos: float | None,
    most: float | None,
) -> list[Found]:
    """What a day, or the strongest water, is of each figure of the consent."""
    known = {one.id: one for one in found}
    shares = []
    for name, at, of, unit in (("share_m3", "day_m3", m3, "m³"), ("share_kg", "day_kg", kilos, "kg")):
        if of is not None:
            shares.append(_share(name, known[at], of, unit))
    if most is not None:
        strongest = known["strength"]
        if analysed:
            top = max([mg_l or 0.0 for _, mg_l in waters] + ([wash_mg_l] if wash_mg_l else []))
            strongest = Found("strength", top)
        shares.append(_share("share_mg_l", strongest, most, "mg/L"))
    return shares


def _share(name: str, one: Found, of: float, unit: str) -> Found:
    value = 100.0 * float(one.value) / of  # type: ignore[arg-type]
    low, high = (100.0 * end / of for end in _ends(one))
    working = f"100 × {carried(float(one.value))} {unit} / {plain_number(of)} {unit} = {fixed(value, 0)} %"  # type: ignore[arg-type]
    return Found(name, value, working, None if one.low is None else low, None if one.high is None else high)


_KG = within.between(0.0, 1e6, "No works lets go more in a day.", "barley_kg", "waters", "batches_day")
_MG_L = within.between(
    0.0, STRENGTH_MG_L.high, "No water that grain was steeped in is so strong.", "waters", "barley_kg",
    instead="Are the cubic metres those of this barley?",
)  # fmt: skip
_M3 = within.between(0.0, 1e6, "No works lets go more.", "waters", "batches_day")
_SHARE = within.between(0.0, 1e9, "Check the figure of the consent.", "consent_kg_day", "consent_mg_l")
_ESTIMATE = (
    "From half to one and a half times as much is open. Design notes have 10 to 12 kg for a tonne of barley, which is "
    "the middle of it. Your own analysis goes before all of this."
)

SHEET = Sheet(
    id="steep-effluent",
    title="Load of the drains",
    purpose="Estimates what steep and wash water carry away, and holds it against the figures of the consent.",
    questions=(
        barley_kg,
        asked_moisture._replace(default="12", example="", hint="As it is filled in."),
        waters,
        batches_week,
        batches_day,
        effluent_m3_day._replace(
            label="Consent: water in a day", hint="Blank: it names none.", example="30", in_view=True
        ),
        consent_kg_day,
        consent_mg_l,
        dry_matter_lost,
        wash_m3,
        wash_mg_l,
        bod_share,
        solids_mg_l,
    ),
    answers=(
        Answer(
            "verdict",
            "Against the figures of the consent",
            kind="verdict",
            lead=True,
            words=(
                Option("over", "Over what you typed of the consent. Ask before the next drain is opened."),
                Option("likely", "More likely than not over what you typed of the consent. Ask before the next drain."),
                Option("open", "It may reach what the consent says: have the drain analysed, and ask."),
                Option("less", "Less than the figures typed, by an estimate. It lets nothing go: the consent does."),
                Option(
                    "less-analysed",
                    "Less than the figures typed, by your analyses. It lets nothing go: the consent does.",
                ),
            ),
            rests_on="the upper end of each share, against the edge of the table of limits",
            trust="It knows the figures you typed. Hours, rate, acidity, warmth, solids and tide stand in the consent "
            "too.",
            next="Whoever holds the consent decides: [[page:procedures/steeping#steep-effluent|steep effluent]].",
        ),
        Answer(
            "cod_kg",
            "Oxygen demand (COD) of a batch",
            "kg",
            1,
            lead=True,
            rests_on="what leaches, burnt as if it were starch; or your analyses, each times its water",
            trust=_ESTIMATE,
            within=_KG,
        ),
        Answer(
            "day_kg",
            "Oxygen demand (COD) of the busiest day",
            "kg",
            1,
            lead=True,
            rests_on="all waters of those batches on one day",
            trust="The most that one day can see, if no batch drains twice as much as another.",
            within=_KG,
        ),
        Answer(
            "strength",
            "Strength of all waters mixed",
            "mg/L",
            0,
            lead=True,
            rests_on="load over water; wash water counts here with its analysis only",
            trust="The first water is stronger than this and the last weaker (common practice).",
            next="Less water for the same barley makes it stronger, and the load no less.",
            within=_MG_L,
        ),
        Answer("water_m3", "Water of a batch", "m3", 1, rests_on="all waters, and washing", within=_M3),
        Answer("day_m3", "Water of the busiest day", "m3", 1, rests_on="water of those batches", within=_M3),
        Answer("mean_kg", "COD of a mean day", "kg", 1, rests_on="batches a week over seven days", within=_KG),
        Answer(
            "bod_kg",
            "Five-day demand (BOD) of a mean day",
            "kg",
            1,
            rests_on="half of the COD; five to twelve of design notes, one to one and a half of a brewery’s water",
            trust="No ratio measured at a maltings was read. A laboratory gives it in five days.",
            within=_KG,
        ),
        Answer(
            "persons",
            "Persons who load a sewer as much",
            "",
            0,
            rests_on="60 g of BOD a person and day (European directive, second-hand)",
            within=within.between(0.0, 1e8, "No town is so large.", "barley_kg", "batches_week"),
        ),
        Answer(
            "m3_tonne",
            "Steep water for a tonne of barley",
            "m3/t",
            1,
            rests_on="steep water over barley",
            trust="Published: 1.8 to 2.5 as waste water (a research project), 3 to 5 used (a trade institute), about 4 "
            "a tonne of malt (MAGB).",
            within=within.between(0.05, 60.0, "No steep takes so little or so much.", "waters", "barley_kg"),
        ),
        Answer(
            "solids_kg",
            "Suspended solids of a batch",
            "kg",
            1,
            rests_on="your analysis times the water",
            trust="No published figure for steep water was read: without an analysis there is none here.",
            within=_KG,
        ),
        Answer("share_m3", "Water of that day, of the consent", "%", 0, rests_on="day over consent", within=_SHARE),
        Answer("share_kg", "COD of that day, of the consent", "%", 0, rests_on="day over consent", within=_SHARE),
        Answer(
            "share_mg_l",
            "Strength, of the consent",
            "%",
            0,
            rests_on="the strongest water analysed, else all of known load mixed",
            trust="Mixed hides the first water. Without analyses this is the least it can be.",
            within=_SHARE,
        ),
    ),
    listings=(
        Listing(
            "each",
            "Each water, analysed",
            (
                Heading("water", "Water", within=within.count(12.0)),
                Heading("m3", "Let go", "m3", 1, within=_M3),
                Heading("mg_l", "COD", "mg/L", within=_MG_L),
                Heading("kg", "COD", "kg", 1, within=_KG),
            ),
        ),
    ),
    work=work,
    belongs=(
        Belongs("leached_percent", ("dry_matter_lost",)),
        Belongs("load_kg", ("waters", "barley_kg")),
        Belongs("water_m3", ("waters", "wash_m3")),
        Belongs("bod_kg_day", ("batches_week", "barley_kg")),
    ),
    sources=(
        "steep-load-notes", "steep-water-project", "steep-water-institute", "brewery-guideline", "direct-dischargers",
        "eu-91-271", "ure", "magb-malt-facts", "isaac-1973",
    ),
    story="Six tonnes of the example maltings in three waters, three batches a week: invented numbers.",
)  # fmt: skip
