"""Whether a piece is ready for the kiln, from acrospires counted in classes and corns rubbed."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Bar,
    Bars,
    Found,
    Note,
    Number,
    Option,
    Outcome,
    Sheet,
    Spans,
    Table,
)
from ..asking.figures import fixed, plain_number
from ..models.counts import acrospire
from ..models.counts.intervals import clopper_pearson
from ..rules.counting import ACROSPIRES
from ..rules.limit import edge
from ..rules.limits.readiness import OVERSHOT, READY
from ..rules.readiness import MOST_WAIT_H, Classes, FellBack, Seen, decide, fell_back
from ..words import within
from ..words.counted import LEAST_CORNS, SAMPLE_REMARK, Count, count_of
from ..words.limits import at_edge
from ..words.malts import beside, taken
from ..words.questions.malts import malt as asked_malt
from ..words.readiness import COSTS, found_of, notes_of
from ..words.tallies import ACROSPIRES as TAPPED

RUB_NAMES = acrospire.RUB_NAMES
_DAYS = ("today", "yesterday", "day before")
_SAID = {"today": "today", "yesterday": "yesterday", "day before": "the day before"}

_TODAY = Number("today", "Today", "", 0, 2000, example="14", whole=True)
_EARLIER = _TODAY._replace(optional=True)

counts = Table(
    "counts",
    "Corns by acrospire length",
    (
        _TODAY,
        _EARLIER._replace(id="yesterday", label="Yesterday"),
        _EARLIER._replace(id="day_before", label="Day before"),
    ),
    min_rows=len(acrospire.CLASS_NAMES),
    max_rows=len(acrospire.CLASS_NAMES),
    row_names=acrospire.CLASS_NAMES,
    hint="Length in parts of the corn. Type 0 where there are none. Earlier days may stay blank.",
    example="1 3 10; 3 12 40; 9 45 44; 84 40 6; 3 0 0",
)
rub = Table(
    "rub",
    "Corns by the rub",
    (Number("corns", "Corns", "", 0, 2000, example="20", whole=True),),
    min_rows=len(RUB_NAMES),
    max_rows=len(RUB_NAMES),
    row_names=RUB_NAMES,
    hint="The inside of split corns, rubbed between finger and thumb.",
    example="1; 3; 46",
    optional=True,
    in_view=True,
)
target_share = Number(
    "target_share",
    "Target at three quarters and beyond",
    "%",
    edge(READY.lowest),
    edge(READY.highest),
    "Corns whose acrospire has come three quarters of the way, or further. Blank: "
    f"{at_edge(READY, 'accept_low')}, or what the malt chosen wants.",
    source="75 to 80 % from memory",
    optional=True,
)
overshot_limit = Number(
    "overshot_limit",
    "Most overshot",
    "%",
    edge(OVERSHOT.lowest),
    edge(OVERSHOT.highest),
    "Acrospire out at the far end.",
    default=plain_number(edge(OVERSHOT.stop_high)),
    source="common practice; no source found",
)
hours_between = Number(
    "hours_between",
    "Hours between counts",
    "h",
    4,
    48,
    "From yesterday’s count to today’s, and from the day before to yesterday’s.",
    default="24",
)


def _days(rows: Sequence[Sequence[float | None]]) -> list[Classes]:
    """Today's, yesterday's and the day before's counts, as far as they are given."""
    days: list[Classes] = []
    for place, name in enumerate(_DAYS):
        column = [row[place] for row in rows]
        given = [count for count in column if count is not None]
        if not given:
            if any(row[later] is not None for row in rows for later in range(place + 1, len(_DAYS))):
                raise AskAgain(
                    "counts", f"the counts of the {_DAYS[place + 1]} are given but not of {name}. Give both."
                )
            break
        if len(given) < len(column):
            row = column.index(None) + 1
            raise AskAgain(
                "counts",
                f"row {acrospire.CLASS_NAMES[row - 1]}, {name}: type a number, 0 where there are none.",
                row,
            )
        if sum(given) < LEAST_CORNS:
            raise AskAgain("counts", _too_few(f"{name} counted", int(sum(given))))
        days.append(tuple(given))
    return days


def _shrunk(back: FellBack) -> str:
    newer, older = _DAYS[back.newer], _DAYS[back.older]
    if back.overshot:
        now, then = back.overshot
        what = f"{fixed(then, 0)} % were overshot {_SAID[older]} and {fixed(now, 0)} % {_SAID[newer]}"
    else:
        what = f"the mean would have shrunk by {fixed(-back.growth, 2)} of a corn a day from {_SAID[older]} to "
        what += f"{_SAID[newer]}"
    return (
        f"{what}, more than chance leaves, and acrospires do not shrink. Are the counts in the wrong order? Today’s is "
        "the first column, the day before’s the last. Put them in order; or leave out the days that were of another "
        "piece or other spots; or count again."
    )


def _too_few(begin: str, corns: int) -> str:
    if not corns:
        return f"{begin}: no corn at all. Count at least {LEAST_CORNS}, better 100."
    best = 100.0 * clopper_pearson(corns, corns).low
    return (
        f"{begin}: {corns} corns are too few. Even if all of them were ready, the true share may be as low as "
        f"{fixed(best, 0)} %. Count at least {LEAST_CORNS}, better 100."
    )


def work(
    *,
    counts: tuple[tuple[float | None, ...], ...],
    rub: tuple[tuple[float], ...] | None,
    target_share: float | None,
    malt: str | None,
    overshot_limit: float,
    hours_between: float,
) -> Outcome:
    """Weigh the kiln now against a wait, and say what either is likely to cost."""
    wanted: list[Note] = []
    own = target_share is not None
    if target_share is not None:
        wanted = beside(malt, "ready", "%", "The target", target_share)
    elif malt is not None:
        target_share, note = taken(malt, "ready", "%", "Judged by a target of")
        wanted = [note]
    else:
        target_share = edge(READY.accept_low)
    days = _days(counts)
    today = days[0]
    corns = sum(today)
    ready = count_of("Three quarters and beyond", today[acrospire.READY] + today[acrospire.OVERSHOT], corns)
    overshot = count_of("Overshot, over 1", today[acrospire.OVERSHOT], corns)
    rubbed = _rubbed(rub)
    flour = (rubbed.shown, rubbed.corns) if rubbed else None
    seen = Seen(tuple(days), hours_between, target_share, overshot_limit, flour)
    if back := fell_back(seen):
        raise AskAgain("counts", _shrunk(back))
    verdict = decide(seen)
    given = "from the table by malt" if malt is not None and not own else "as typed" if own else "the handbook’s"
    found = [ready.found("share_ready"), overshot.found("share_overshot"), _mean(today), _evenness(today)]
    if rubbed:
        found.append(rubbed.found("rub_ready"))
    found += found_of(verdict, seen)
    found.append(Found("target_used", target_share, given))
    notes = [*notes_of(verdict, seen, rubbed), *wanted, Note("remark", SAMPLE_REMARK)]
    return Outcome(
        tuple(found),
        notes=tuple(notes),
        charts=(_intervals(ready, overshot, rubbed, target_share, overshot_limit), _classes(days)),
    )


def _rubbed(rows: tuple[tuple[float], ...] | None) -> Count | None:
    if rows is None:
        return None
    corns = int(sum(row[0] for row in rows))
    if corns < LEAST_CORNS:
        raise AskAgain("rub", _too_few("rubbed", corns))
    return count_of("Rubs to dry flour", rows[-1][0], corns)


def _mean(today: Classes) -> Found:
    middle, lower, upper = (acrospire.mean_length(counts=today, place=place) for place in (0.5, 0.0, 1.0))
    middles = (acrospire.mean_length(counts=[float(n == k) for n in range(len(today))]) for k in range(len(today)))
    each = " + ".join(f"{plain_number(count)} × {plain_number(at)}" for count, at in zip(today, middles, strict=True))
    return Found(
        "mean_acrospire",
        middle,
        f"corns at the middle of their class: ({each}) / {plain_number(sum(today))} = "
        f"{fixed(middle, 3)}, {fixed(lower, 2)} at the lower ends, {fixed(upper, 2)} at the upper",
    )


def _evenness(today: Classes) -> Found:
    value, corns, most = acrospire.evenness(counts=today), sum(today), max(map(sum, pairwise(today)))
    return Found(
        "evenness",
        value,
        f"the two neighbouring classes that hold most: 100 × {plain_number(most)} / "
        f"{plain_number(corns)} = {fixed(value, 0)} % of the corns, standard deviation "
        f"{fixed(acrospire.spread(counts=today), 2)} of a corn",
    )


def _intervals(ready: Count, overshot: Count, rubbed: Count | None, target: float, limit: float) -> Spans:
    spans = [ready.span(target), overshot.span(limit, "below")]
    if rubbed:
        spans.append(rubbed.span(target))
    told = "; ".join(f"{span.label}: {fixed(span.value, 1)} %" for span in spans)
    return Spans(
        "intervals",
        "What the count shows",
        f"{told}. The line reaches over the shares that the count leaves open; the hatched side is wanted.",
        Axis("Corns", "%", low=0.0, high=100.0, decimals=1),
        tuple(spans),
    )


def _classes(days: list[Classes]) -> Bars:
    sets = tuple(
        Bar(name.capitalize(), [100.0 * count / sum(day) for count in day])
        for name, day in zip(_DAYS, days, strict=False)
    )
    return Bars(
        "classes",
        "Acrospires by class and day",
        f"{'Today' if len(days) == 1 else 'Day by day'}: the piece moves to the right as it grows. "
        "An even piece is one tall heap.",
        "Acrospire, parts of the corn",
        acrospire.CLASS_NAMES,
        Axis("Corns", "%", low=0.0, decimals=0),
        tuple(reversed(sets)),
    )


_EXACT = "exact binomial interval (Clopper and Pearson)"

SHEET = Sheet(
    id="readiness",
    title="Readiness for the kiln",
    purpose="Whether enough acrospires are long enough, how sure the count is, and how long still to wait.",
    questions=(counts, rub, asked_malt, target_share, overshot_limit, hours_between),
    tallies=(TAPPED,),
    answers=(
        Answer(
            "verdict",
            "Verdict",
            kind="verdict",
            lead=True,
            words=(
                Option("kiln-now", "Kiln now, if rub and smell agree."),
                Option("wait", "Wait."),
                Option("count-more", "Count more before you decide."),
                Option("late", "Already late: to the kiln now, and write why."),
            ),
            rests_on="the cheaper road, over all that the count leaves open, and never the kiln while the share "
            "counted is under the target; late when it is more likely than not that too many are overshot",
            trust="The count says how long the acrospires are, not how the corn tastes, smells or rubs.",
            next="Split, rub and smell before you load: [[page:procedures/readiness|is it ready?]].",
        ),
        Answer(
            "wait_hours",
            "For about",
            "h",
            0,
            lead=True,
            rests_on="growth of the mean acrospire between the counts, held towards a typical one, every corn taken "
            "to grow alike",
            trust="The range is the doubt of the count and of the growth. A colder or drier bed grows more slowly from "
            "now on.",
            next="Count again well before the lower figure.",
            worked="model",
            within=within.between(0.0, MOST_WAIT_H, "Corns are counted again before that.", "hours_between"),
        ),
        Answer(
            "count_more",
            "Count so many more",
            "corns",
            0,
            lead=True,
            rests_on=f"what a further count is likely to save, against its cost; at most {ACROSPIRES.in_half_an_hour}, "
            "which one person splits in half an hour (common practice)",
            trust="A rough guide: the next corns will not show just the same share.",
            next="From fresh spots all over the piece. Then judge once, all corns together.",
            worked="model",
            within=within.corns("counts"),
        ),
        Answer(
            "share_ready",
            "At three quarters and beyond",
            "%",
            0,
            lead=True,
            rests_on=_EXACT,
            trust="100 corns near 80 % leave about 8 points open on either side.",
            within=within.part("counts"),
        ),
        Answer(
            "share_overshot",
            "Of them overshot, over one",
            "%",
            1,
            rests_on=_EXACT,
            trust="Of 100 corns none overshot still leaves up to 3.6 % open.",
            within=within.part("counts"),
        ),
        Answer(
            "rub_ready",
            "Rubs to dry flour",
            "%",
            0,
            rests_on=_EXACT,
            trust="The hand judges; two people differ.",
            within=within.part("rub"),
        ),
        Answer(
            "kiln_points",
            "To the kiln now would cost",
            "points",
            1,
            rests_on=f"costs that are a convention of this handbook: {COSTS}",
            trust="One point is one corn of a hundred spoilt. A house that finds an overshot corn worse, or a day "
            "dearer, may decide otherwise.",
            within=within.between(0.0, 100.0, "More than everything cannot be lost.", "counts"),
        ),
        Answer(
            "waiting_points",
            "A wait would cost",
            "points",
            1,
            rests_on="the same costs, of the piece as it will be",
            trust="Every corn is taken to grow alike; the doubt of the growth is in it.",
            within=within.between(0.0, 100.0, "More than everything cannot be lost.", "counts"),
        ),
        Answer(
            "mean_acrospire",
            "Mean acrospire, class middles",
            "",
            2,
            rests_on="each corn at the middle of its class; corns over 1 count 1.125",
            trust="The convention moves it by an eighth either way: compare only means of the same convention.",
            within=within.between(
                0.0, 1.5, "It is counted in lengths of the corn, and what is out counts as a little over one.", "counts"
            ),
        ),
        Answer(
            "evenness",
            "Evenness",
            "%",
            0,
            rests_on="share of corns in the two neighbouring classes that hold most: a convention of this handbook",
            trust="No published measure was found.",
            within=within.part("counts"),
        ),
        Answer(
            "target_used",
            "Target judged by",
            "%",
            0,
            rests_on="what was typed, else the malt chosen, else the limits of the page",
            worked="given",
            within=within.part("target_share"),
        ),
    ),
    work=work,
    sources=(
        "black-treatise",
        "thomson-1824",
        "ajib-thesis",
        "coppinger-1815",
        "wagner-rootlets",
        "narziss-smell",
        "cereals-processing",
        "mueller-2014",
        "clopper-pearson",
    ),
    story="Batch example-03 of the example maltings, fifth day on the floor: invented numbers.",
)
