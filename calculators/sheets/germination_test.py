"""Energy, capacity and water sensitivity of barley from a germination test, and what they decide."""

from __future__ import annotations

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Choice,
    Found,
    Heading,
    Listing,
    Note,
    Number,
    Option,
    Outcome,
    Rows,
    Sheet,
    Span,
    Spans,
    Table,
)
from ..asking.figures import carried, fixed, plain_number
from ..models.counts.intervals import newcombe
from ..models.grain import tests as grain_tests
from ..rules.counting import DISHES
from ..rules.germination import Edges, sensitivity
from ..rules.limit import edge, judge
from ..rules.limits.germination_test import WATER_SENSITIVITY
from ..words import within
from ..words.counted import SAMPLE_REMARK, Agreement, Count, agreement, pooled
from ..words.germination import Tests, judged
from ..words.limits import at_edge
from ..words.questions.grain import capacity_limit_percent, capacity_reject_percent, energy_limit_percent

_WATCHED = at_edge(WATER_SENSITIVITY, "accept_high")
_SENSITIVE = at_edge(WATER_SENSITIVITY, "stop_high")

Dishes = tuple[tuple[float, float], ...]

_GROWN = Number("grown", "Grown", "", 0, 1000, example="98", whole=True)
_SOWN = Number("sown", "Sown", "", 1, 1000, default="100", example="100", whole=True)
_COUNTED = Number("count", "Corns", "", 0, 12_000, example="60", whole=True)

replicates = Table(
    "replicates",
    "4 ml test",
    (_GROWN, _SOWN),
    max_rows=12,
    hint="A row for each dish: grown in three days, and sown (100 when left blank).",
    example="98 100; 97 100; 99 100; 98 100",
)
replicates_8ml = replicates._replace(
    id="replicates_8ml",
    label="8 ml test",
    hint="The same barley in twice the water. It shows water sensitivity.",
    example="88 100; 90 100; 86 100; 88 100",
    optional=True,
)
capacity_rows = replicates._replace(
    id="capacity_rows",
    label="Capacity test",
    hint="Corns that live, asleep or not: stained on the cut, or grown in peroxide.",
    example="99 100; 99 100; 98 100; 99 100",
    optional=True,
)
daily = Table(
    "daily",
    "Counts by day",
    (_COUNTED,),
    min_rows=3,
    max_rows=3,
    row_names=("24 h", "48 h", "72 h"),
    hint="All dishes of the 4 ml test together.",
    example="250; 120; 22",
    optional=True,
)
daily_kind = Choice(
    "daily_kind",
    "Kind of daily counts",
    (
        Option("newly", "Newly grown and taken out"),
        Option("running", "Running totals"),
    ),
    "Mixed up, they give a wrong index.",
    example="newly",
    optional=True,
)
limit_percent = energy_limit_percent._replace(id="limit_percent")


def work(
    *,
    replicates: Dishes,
    replicates_8ml: Dishes | None,
    capacity_rows: Dishes | None,
    limit_percent: float,
    capacity_limit_percent: float,
    capacity_reject_percent: float,
    daily: tuple[tuple[float], ...] | None,
    daily_kind: str | None,
) -> Outcome:
    """Pool the dishes, hold the intervals against the limits and decide."""
    if capacity_reject_percent > capacity_limit_percent:
        raise AskAgain(
            "capacity_reject_percent",
            f"{plain_number(capacity_reject_percent)} % is above the capacity wanted, "
            f"{plain_number(capacity_limit_percent)} %. Type a number up to {plain_number(capacity_limit_percent)}.",
        )
    tests = Tests(
        pooled("replicates", "Energy, 4 ml", replicates),
        pooled("replicates_8ml", "In 8 ml", replicates_8ml) if replicates_8ml else None,
        pooled("capacity_rows", "Capacity", capacity_rows) if capacity_rows else None,
    )
    agreed = {count.label: agreement(count) for count in tests if count}
    notes: list[Note] = []
    found = [tests.energy.found("energy"), _agree(agreed[tests.energy.label])]
    if tests.capacity:
        found.append(tests.capacity.found("capacity"))
    if tests.wet:
        found += _sensitivity(tests.energy, tests.wet, notes)
    if daily is not None or daily_kind is not None:
        found.append(_index(daily, daily_kind, tests.energy.shown))
    edges = Edges(limit_percent, capacity_limit_percent, capacity_reject_percent)
    found += judged(tests, agreed, edges, notes)
    notes.append(Note("remark", SAMPLE_REMARK))
    return Outcome(
        tuple(found),
        tables=(_comparison(tests, agreed),),
        notes=tuple(notes),
        charts=(_picture(tests, limit_percent, capacity_limit_percent),),
    )


def _agree(one: Agreement) -> Found:
    if one.allowed is None:
        return Found("replicates_agree", one.word, "one dish")
    return Found(
        "replicates_agree",
        one.word,
        f"best dish less worst dish {one.widest}; by chance seldom more than {one.allowed}",
    )


def _sensitivity(energy: Count, wet: Count, notes: list[Note]) -> list[Found]:
    # from whole numbers, so that a difference of just 10 points is 10
    points = 100.0 * (energy.shown * wet.corns - wet.shown * energy.corns) / (energy.corns * wet.corns)
    low, high = (100.0 * end for end in newcombe(energy.shown, energy.corns, wet.shown, wet.corns))
    kind = sensitivity(points)
    ends = [sensitivity(end) for end in (low, high)]
    if ends[0] != ends[1]:
        notes.append(Note("remark", f"The interval of water sensitivity reaches from “{ends[0]}” to “{ends[1]}”."))
    if judge(WATER_SENSITIVITY, points) == "stop":
        notes.append(
            Note(
                "notice",
                f"Past a stop. Water-sensitive: {at_edge(WATER_SENSITIVITY, 'stop_high')} or more by "
                f"the published line. {WATER_SENSITIVITY.act} Give longer air rests and shorter immersions: "
                "[[page:procedures/steeping|steeping]].",
            )
        )
    return [
        Found(
            "water_sensitivity",
            points,
            f"{carried(100 * energy.share)} − {carried(100 * wet.share)} = {fixed(points, 1)} points, "
            f"with Newcombe’s interval of {fixed(low, 1)} to {fixed(high, 1)}",
            low,
            high,
            gives=None if points >= 0 else "",  # more grown in more water is no sensitivity
        ),
        Found("water_class", kind, f"{fixed(points, 1)} points"),
    ]


def _index(daily: tuple[tuple[float], ...] | None, kind: str | None, grown: int) -> Found:
    if daily is None:
        raise AskAgain("daily", "type the counts after 24, 48 and 72 h, or leave the kind of count blank.")
    if kind is None:
        raise AskAgain(
            "daily_kind",
            "choose one: newly grown and taken out, or running totals. The index differs: 60, 90, 97 is 6.88 as "
            "running totals and 4.65 if taken for new ones.",
        )
    counts = [row[0] for row in daily]
    newly = counts
    if kind == "running":
        for number in (1, 2):
            if counts[number] < counts[number - 1]:
                raise AskAgain(
                    "daily",
                    f"row {number + 1}: a running total never falls. Type at least "
                    f"{plain_number(counts[number - 1])}, or choose newly grown.",
                    number + 1,
                )
        newly = grain_tests.newly_from_running(running=counts)
    total = sum(newly)
    if total != grown:
        hint = ""
        if kind == "newly" and counts[-1] == grown and counts == sorted(counts):
            hint = " They look like running totals: if so, choose that."
        raise AskAgain(
            "daily",
            f"{', '.join(plain_number(count) for count in counts)} make {plain_number(total)} corns, but "
            f"{grown} grew in the dishes of the 4 ml test. Correct one of them.{hint}",
        )
    if not total:
        raise AskAgain("daily", "no corn grew, so there is no speed to give. Leave the counts by day blank.")
    index = grain_tests.germination_index(newly_grown=newly)
    x, y, z = (plain_number(count) for count in newly)
    return Found(
        "germination_index",
        index,
        f"10 × ({x} + {y} + {z}) / ({x} + 2 × {y} + 3 × {z}) = {fixed(index, 2)}",
    )


def _comparison(tests: Tests, agreed: dict[str, Agreement]) -> Rows:
    rows = []
    for count in tests:
        if count:
            one = agreed[count.label]
            rows.append(
                (
                    count.label,
                    float(len(count.rows)),
                    100.0 * count.share,
                    float(one.widest) if one.allowed is not None else None,
                    None if one.allowed is None else float(one.allowed),
                    {"table": "7 CFR 201.55", "exact": "exact chance"}.get(one.word[-5:], "–"),
                )
            )
    return Rows("dishes", rows)


def _picture(tests: Tests, limit: float, wanted: float) -> Spans:
    spans: list[Span] = [tests.energy.span(limit)]
    if tests.wet:
        spans.append(tests.wet.span(None))
    if tests.capacity:
        spans.append(tests.capacity.span(wanted))
    counted = "; ".join(f"{span.label}: {fixed(span.value, 1)} %" for span in spans)
    return Spans(
        "intervals",
        "What the counts show",
        f"{counted}. The line reaches over the shares that the count leaves open; the hatched side is wanted.",
        Axis("Corns", "%", high=100.0, decimals=1),
        tuple(spans),
    )


_EXACT = "exact binomial interval (Clopper and Pearson), all dishes together"
_SENSITIVITY = within.between(
    -20.0,
    100.0,
    "In more water no more corns grow, but for the luck of the dishes.",
    "replicates_8ml",
    instead="Look whether the counts in 4 and in 8 ml are swapped.",
)

SHEET = Sheet(
    id="germination-test",
    title="Germination test",
    purpose="Whether barley grows well enough, how sure the count is, and what to do next.",
    questions=(
        replicates,
        replicates_8ml,
        capacity_rows,
        daily,
        daily_kind,
        limit_percent,
        capacity_limit_percent,
        capacity_reject_percent,
    ),
    answers=(
        Answer(
            "verdict",
            "Verdict",
            kind="verdict",
            lead=True,
            words=(
                Option("meets-limit", "Germination meets the limit. The other intake checks remain."),
                Option("dormant", "Dormant: rest it and test again."),
                Option("capacity-low", "Capacity is under the limit: do not malt. Repeat on a fresh sample."),
                Option("grey-band", "Grey band: capacity lies between the two limits. Some corns are dead."),
                Option("undecided", "Undecided: this count does not settle it."),
            ),
            rests_on="the whole interval on one side of the limit; example decisions of Montana State University",
            trust="A share near the limit needs very many corns. The verdict is about this sample’s lot, if the "
            "sample was fair.",
            next="What else to check: [[sheet:intake-check]].",
        ),
        Answer(
            "energy",
            "Germinative energy",
            "%",
            1,
            lead=True,
            rests_on=_EXACT,
            trust="The interval is the doubt of counting, no more: water, warmth and sampling come on top.",
            within=within.part("replicates"),
        ),
        Answer(
            "replicates_agree",
            "Do the dishes agree?",
            kind="verdict",
            words=(
                Option("yes-table", "Yes, by the table of 7 CFR 201.55."),
                Option("yes-exact", "Yes, by the exact binomial range (the table has no such row)."),
                Option("no-table", "No, by the table of 7 CFR 201.55."),
                Option("no-exact", "No, by the exact binomial range (the table has no such row)."),
                Option("one-dish", "One dish only: there is nothing to compare."),
            ),
            rests_on="7 CFR 201.55 for two or four dishes of 100; elsewhere the range that chance passes 2.5 times in "
            "100",
            trust="Agreeing dishes can still all be wrong together, if they stood in one warm corner.",
        ),
        Answer(
            "capacity",
            "Germinative capacity",
            "%",
            1,
            rests_on=_EXACT,
            trust="Staining needs a practised eye. Of 100 corns all alive, at least 97 % live (95 % sure).",
            within=within.part("capacity_rows"),
        ),
        Answer(
            "water_sensitivity",
            "Water sensitivity",
            "points",
            1,
            rests_on="energy in 4 ml less energy in 8 ml (MEBAK); interval by Newcombe’s method 10",
            trust="A difference of two counts is less sure than either.",
            gives="water_sensitivity",
            within=_SENSITIVITY,
        ),
        Answer(
            "water_class",
            "Class of water sensitivity",
            kind="verdict",
            words=(
                Option("slight", f"Slight: under {_WATCHED}."),
                Option("some", f"Some: {plain_number(edge(WATER_SENSITIVITY.accept_high))} to under {_SENSITIVE}."),
                Option("sensitive", f"Sensitive: {_SENSITIVE} or more."),
            ),
            rests_on=f"{_SENSITIVE} or more is “sensitive” in print (Montana State University); the lower "
            "edge is from memory",
            trust="By the figure itself, not by its interval.",
            next="The more sensitive, the longer the air rests.",
        ),
        Answer(
            "germination_index",
            "Germination index",
            "",
            2,
            rests_on="10 (x + y + z)/(x + 2y + 3z), from memory; its maximum of 10 is in print",
            trust="It says how fast those grew that grew, and nothing about the rest.",
            within=within.between(0.0, 10.0, "10 is every corn on the first day.", "daily"),
        ),
        Answer(
            "count_more",
            "Count so many more",
            "corns",
            0,
            lead=True,
            rests_on="the count at which the exact interval leaves the limit, if the share stays as it is; at most "
            f"{DISHES.in_half_an_hour}, as many as the whole test has (common practice)",
            trust="A rough guide: the next dishes will not show just the same share.",
            next="Sow them all, then judge once.",
            worked="model",
            within=within.corns("replicates"),
        ),
    ),
    listings=(
        Listing(
            "dishes",
            "Dishes compared",
            (
                Heading("test", "Test", kind="text"),
                Heading("dishes", "Dishes", within=within.count(100.0)),
                Heading("mean", "Mean", "%", 1, within=within.part("replicates")),
                Heading("range", "Best less worst", within=within.between(0.0, 1000.0, "No dish holds more corns.")),
                Heading("allowed", "At most", within=within.between(0.0, 1000.0, "No dish holds more corns.")),
                Heading("rule", "By", kind="text"),
            ),
        ),
    ),
    work=work,
    sources=(
        "barley-lab-germination",
        "mebak-brf",
        "magb-intake",
        "cfr-201-55",
        "clopper-pearson",
        "wilson-1927",
        "newcombe-1998",
        "mccafferty-1999",
    ),
    story="A load for batch example-02 of the example maltings: invented numbers.",
)
