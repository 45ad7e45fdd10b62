"""What to do with a load of barley at the gate: take, dry, rest or reject, and which line decided."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    AskAgain,
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
    Text,
)
from ..asking.figures import fixed, plain_number
from ..models.bounds import Bounds
from ..models.grain import drying as intake
from ..rules.intake import (
    CERTIFICATE,
    FOREIGN,
    NO_CERTIFICATE,
    NOBODY_KNOWS,
    SPOILS_AT_C,
    SPOILS_DAYS,
    SPOILS_PERCENT,
    Germination,
    Signs,
    decide,
    first_stops,
)
from ..rules.limit import edge
from ..rules.limits.intake_and_storage import GATE_MOISTURE, GATE_TEMP, STORE_MOISTURE, STORE_TEMP
from ..words import within
from ..words.intake import CHECKS, Check, check_germination, dangers, loosened, reason, remarks, row
from ..words.limits import taken
from ..words.questions.grain import capacity_limit_percent, capacity_reject_percent, energy_limit_percent
from ..words.questions.shared import number

moisture = number("moisture", "Moisture", "%", intake.GRAIN_MOISTURE, "Of the mixed sample.", example="13.2")
energy_percent = Number(
    "energy_percent", "Germinative energy", "%", 0, 100, "From the three-day test.", example="98", optional=True
)
capacity_percent = Number(
    "capacity_percent", "Germinative capacity", "%", 0, 100, "From stained or peroxide-treated corns.", example="99",
    optional=True, in_view=True,
)  # fmt: skip
smell = Choice(
    "smell",
    "Smell",
    (
        Option("clean", "Clean, like straw"),
        Option("dusty", "Dusty"),
        Option("musty", "Musty"),
        Option("sour", "Sour"),
        Option(FOREIGN, "Foreign: chemical, smoke, garlic, fish"),
    ),
    "Of a handful from the sample, in the open. Never with your head in the load.",
    example="clean",
)
insects = Choice(
    "insects",
    "Insects or mites",
    (Option("none", "None found"), Option("found", "Found")),
    "Sieve the sample over white paper.",
    example="none",
)
fumigated = Choice(
    "fumigated",
    "Was it fumigated, and with what?",
    (
        Option("written-no", "No, and it stands in writing"),
        Option(CERTIFICATE, "Yes, and the certificate is here"),
        Option(NO_CERTIFICATE, "Yes, and no certificate is here"),
        Option(NOBODY_KNOWS, "Nobody knows"),
    ),
    "On the farm, in the store, on the way. “Nobody knows” is not “no”.",
    example="written-no",
)
fumigant = Text(
    "fumigant",
    "With what, and the certificate’s number",
    80,
    "As the paper says. Needed if there is a certificate; else leave it blank.",
    optional=True,
    in_view=True,
)
moisture_limit_percent = number(
    "moisture_limit_percent",
    "Limit: moisture",
    "%",
    Bounds(edge(GATE_MOISTURE.lowest), edge(GATE_MOISTURE.highest)),
    default=plain_number(edge(GATE_MOISTURE.stop_high)),
    source="Maltsters’ Association of Great Britain, from 1 November (read); others have 13.5 and 14 %",
)
dry_to_percent = number(
    "dry_to_percent",
    "Dry to",
    "%",
    Bounds(edge(STORE_MOISTURE.lowest), edge(STORE_MOISTURE.highest)),
    "12 for long storing.",
    default=plain_number(edge(STORE_MOISTURE.accept_high)),
    source="HGCA Topic Sheet 60 (in a copy); MEBAK 12 % (read)",
)
air_limit_c = number(
    "air_limit_c",
    "Hottest drying air",
    "C",
    Bounds(20.0, 80.0),
    "Published: 43 at any moisture, or 65 at 20 % and less above.",
    default=plain_number(intake.AIR_STRICT_C),
    source="Brewing and Malting Barley Research Institute, Canada (read)",
)


def _measured(check: Check) -> Number:
    needed = check.id == "temperature_c"
    return Number(
        check.id, check.label, check.unit, check.low, check.high, check.hint, example=check.example, optional=not needed
    )


def _limit(check: Check) -> Number:
    label = "Limit: " + check.label[0].lower() + check.label[1:]
    return Number(
        "limit_" + check.id, label, check.unit, check.low, check.high, default=check.limit, source=check.source
    )


def at_once(*, smell: str | None, insects: str | None, fumigated: str | None) -> Outcome | None:
    """What can hurt people stops the load before anything else of it is known."""
    signs = Signs(smell, insects, fumigated)
    stops = first_stops(signs)
    if not stops:
        return None
    return Outcome(
        (Found("verdict", "stop", reason(stops)),),
        tables=(Rows("lines", [row(line) for line in stops]),),
        notes=(*dangers(signs), *remarks(signs, None)),
    )


def work(
    *,
    moisture: float,
    smell: str,
    insects: str,
    fumigated: str,
    fumigant: str | None,
    energy_percent: float | None,
    capacity_percent: float | None,
    moisture_limit_percent: float,
    energy_limit_percent: float,
    capacity_limit_percent: float,
    capacity_reject_percent: float,
    dry_to_percent: float,
    air_limit_c: float,
    screenings_percent: float | None,
    nitrogen_percent: float | None,
    pre_germinated_percent: float | None,
    split_skinned_percent: float | None,
    ergot_g_kg: float | None,
    admixture_percent: float | None,
    temperature_c: float,
    limit_screenings_percent: float,
    limit_nitrogen_percent: float,
    limit_pre_germinated_percent: float,
    limit_split_skinned_percent: float,
    limit_ergot_g_kg: float,
    limit_admixture_percent: float,
    limit_temperature_c: float,
) -> Outcome:
    """Hold every figure against its limit; the gravest line decides."""
    figures = {
        "screenings_percent": (screenings_percent, limit_screenings_percent),
        "nitrogen_percent": (nitrogen_percent, limit_nitrogen_percent),
        "pre_germinated_percent": (pre_germinated_percent, limit_pre_germinated_percent),
        "split_skinned_percent": (split_skinned_percent, limit_split_skinned_percent),
        "ergot_g_kg": (ergot_g_kg, limit_ergot_g_kg),
        "admixture_percent": (admixture_percent, limit_admixture_percent),
        "temperature_c": (temperature_c, limit_temperature_c),
    }
    if dry_to_percent > moisture_limit_percent:
        raise AskAgain(
            "dry_to_percent",
            f"{plain_number(dry_to_percent)} % is above the limit at the gate, {plain_number(moisture_limit_percent)} "
            f"%. Type a number up to {plain_number(moisture_limit_percent)}.",
        )
    signs = Signs(smell, insects, fumigated)
    if fumigated == CERTIFICATE and not fumigant:
        raise AskAgain("fumigant", "type what it was fumigated with and the number of the certificate, as it says.")
    germination = Germination(
        energy_percent, capacity_percent, energy_limit_percent, capacity_limit_percent, capacity_reject_percent
    )
    check_germination(germination)
    verdict = decide(signs, moisture, moisture_limit_percent, germination, figures)
    word = verdict.word
    found = [Found("verdict", word, reason(verdict.decided) or "no line that was checked breaks its limit")]
    warm = temperature_c > edge(STORE_TEMP.accept_high)
    found += _treatment(word, moisture, dry_to_percent, air_limit_c, warm)
    return Outcome(
        tuple(found),
        tables=(Rows("lines", [row(line) for line in verdict.lines]),),
        notes=(
            *dangers(signs),
            *loosened(verdict, dry_to_percent),
            *_notes(word, moisture, dry_to_percent),
            *remarks(signs, verdict),
        ),
    )


def _treatment(word: str, moisture: float, dry_to: float, air_limit: float, warm: bool) -> list[Found]:
    """What the verdict asks for: how dry, how hot, how cool, and when to test again."""
    found: list[Found] = []
    sleeps = word in ("rest", "dry-rest")
    if sleeps:
        dry_to = min(dry_to, intake.REST_MOISTURE.high)
    if word in ("dry", "dry-rest") or (sleeps and moisture > intake.REST_MOISTURE.high):
        by_moisture = intake.drying_air(moisture=moisture)
        air = min(air_limit, by_moisture)
        found += [
            Found("dry_to", dry_to, f"from {plain_number(moisture)} to {plain_number(dry_to)} %"),
            Found(
                "air_at_most_c",
                air,
                f"the lower of the house’s {plain_number(air_limit)} °C and {fixed(by_moisture, 0)} °C "
                f"(65 °C up to 20 % moisture, 1 °C less for each 1 % above)",
            ),
            Found("grain_at_most_c", intake.GRAIN_AT_MOST_C, "measured in the grain, not in the air"),
        ]
    if sleeps:
        found.append(Found("test_again_days", intake.REST_DAYS, "two weeks, then cool and test"))
    elif word == "dry":
        found.append(Found("test_again_days", 1.0, "after drying, before it is covered by other grain"))
    if word == "dry" or (word == "take" and warm):
        cool = edge(STORE_TEMP.accept_high)
        found.append(Found("cool_to_c", cool, "with night air, within two to three weeks"))
    return found


def _notes(word: str, moisture: float, dry_to: float) -> list[Note]:
    notes: list[Note] = []
    if moisture > SPOILS_PERCENT and word != "reject":
        then = "do not let the question wait. If it is taken, the drier comes" if word == "ask" else "dry it"
        notes.append(
            Note(
                "notice",
                f"At {plain_number(SPOILS_PERCENT)} % and {plain_number(SPOILS_AT_C)} °C barley loses its germination "
                f"in about {plain_number(SPOILS_DAYS)} days (published). Wetter or warmer is faster: {then} first of "
                "all loads.",
            )
        )
    if word == "ask":
        notes.append(
            Note(
                "notice",
                "It heats, or it came hot from a drier, until shown otherwise. Ask when it was dried and how hot. It "
                "stays on the lorry until the capacity of a fresh sample is known: "
                "[[page:procedures/germination-test|the test]].",
            )
        )
    if word == "take" and moisture > dry_to:
        notes.append(
            Note(
                "remark",
                f"Over {taken(dry_to, STORE_MOISTURE, 'accept_high')} it keeps for weeks, not for a season. Dry it "
                "before you store it.",
            )
        )
    if word == "hold":
        notes.append(
            Note(
                "notice",
                "In the grey band of the capacity nothing is settled. Do not tip it into good barley. Stain a fresh "
                "sample of the whole load, and tell the shift lead: [[page:procedures/germination-test|the test]].",
            )
        )
    if word in ("rest", "dry-rest"):
        dry, warm = intake.REST_MOISTURE, intake.REST_C
        first = (
            f"Dry it once, to {plain_number(min(dry_to, dry.high))} %, and test its capacity the next "
            "day. Do not cool it for the store before it has rested. "
            if word == "dry-rest" or moisture > dry.high
            else ""
        )
        notes.append(
            Note(
                "notice" if word == "dry-rest" else "remark",
                f"{first}Dormancy breaks faster warm and dry: {plain_number(warm.low)} to {plain_number(warm.high)} °C "
                f"for two weeks at {plain_number(dry.low)} to {plain_number(dry.high)} % moisture is published. Then "
                f"cool it to under {plain_number(intake.REST_THEN_C)} °C, and test. Wet grain must never be kept warm: "
                "[[page:procedures/intake-and-storage#rest-dormant-barley|rest dormant barley]].",
            )
        )
    return notes


SHEET = Sheet(
    id="intake-check",
    title="Intake check",
    purpose="Take a load, dry it, rest it or send it back, and which line decided.",
    questions=(
        smell,
        insects,
        fumigated,
        fumigant,
        moisture,
        _measured(CHECKS[-1]),
        energy_percent._replace(in_view=True),
        capacity_percent,
        *(_measured(check) for check in CHECKS[:-1]),
        moisture_limit_percent,
        energy_limit_percent,
        capacity_limit_percent,
        capacity_reject_percent,
        *(_limit(check) for check in CHECKS),
        dry_to_percent,
        air_limit_c,
    ),
    answers=(
        Answer(
            "verdict",
            "Verdict",
            kind="verdict",
            lead=True,
            words=(
                Option("take", "Take it: every check that was made keeps its limit."),
                Option("dry", "Dry it, then cool it and test again."),
                Option("dry-rest", "Dry it for its rest, then rest it warm: it is damp, and it lives but sleeps."),
                Option("hold", "Hold: repeat the capacity on a fresh sample before anything is decided."),
                Option("rest", "Rest it: it lives but sleeps. Test again."),
                Option("ask", GATE_TEMP.act),
                Option("reject", "Do not take it as it stands."),
                Option("stop", "Stop: do not tip. Keep people away from the load, and call."),
            ),
            rests_on="what can hurt people first, whatever is still blank; then the gravest line: reject before ask "
            "before dry before hold before rest; damp and asleep is one way",
            trust="Single figures, each with its own doubt. Near a limit see [[sheet:germination-test]].",
        ),
        Answer(
            "dry_to",
            "Dry to",
            "%",
            1,
            lead=True,
            rests_on="HGCA Topic Sheet 60: 13 %; MEBAK: 12 % to store; before a rest Oxford Companion",
            worked="given",
            within=within.between(
                8.0, 20.0, "Barley is not dried further for storing.", "dry_to_percent", "moisture_limit_percent"
            ),
        ),
        Answer(
            "air_at_most_c",
            "Drying air at most",
            "C",
            0,
            lead=True,
            rests_on="two published limits, the lower of them",
            trust="The two published limits differ by 22 °C. The lower costs time, not germination.",
            worked="rule",
            within=within.between(20.0, 80.0, "Hotter air kills the barley.", "air_limit_c"),
        ),
        Answer(
            "grain_at_most_c",
            "Grain at most",
            "C",
            0,
            rests_on="HGCA Topic Sheet 60",
            worked="rule",
            within=within.between(10.0, 70.0, "Hotter barley is dead.", "air_limit_c"),
        ),
        Answer(
            "cool_to_c",
            "Cool it to",
            "C",
            0,
            rests_on="HGCA Grain storage guide: below 15 °C within two to three weeks",
            trust="Malting barley is kept nearer 10 than 5 °C (published advice). A cooling trial to 8 °C brought no "
            "dormancy back.",
            worked="rule",
            within=within.between(0.0, 40.0, "No store is kept warmer or colder.", "temperature_c"),
        ),
        Answer(
            "test_again_days",
            "Test germination again after",
            "days",
            0,
            rests_on="after drying: common practice; after resting: two weeks (Oxford Companion), “a few weeks” "
            "(Montana)",
            worked="rule",
            within=within.between(0.0, 365.0, "Barley is tested again within the year.", "energy_percent"),
        ),
    ),
    listings=(
        Listing(
            "lines",
            "Line by line",
            (
                Heading("check", "Check", kind="text"),
                Heading("found", "Found", kind="text"),
                Heading("limit", "Limit", kind="text"),
                Heading("says", "Says", kind="text"),
                Heading("source", "Default from", kind="text"),
            ),
        ),
    ),
    work=work,
    sources=(
        "magb-intake",
        "magb-nitrogen",
        "magb-ergot",
        "barley-lab-germination",
        "mebak-pre-germination",
        "mebak-moisture",
        "cfr-810-205",
        "cfr-810-206",
        "eu-2023-915",
        "ahdb-ergot",
        "bmbri-drying",
        "hgca-topic-60",
        "hgca-temperature",
        "csl-cooling",
        "oxford-dormancy",
        "robson-2001",
        "hellevang-2019",
    ),
    story="A load at the gate of the example maltings, in November: invented numbers.",
    first=First(("smell", "insects", "fumigated"), at_once),
)
