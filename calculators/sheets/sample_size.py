"""How many corns to count, and what counts of the usual sizes can show."""

from __future__ import annotations

from typing import Literal

from ..asking.declare import (
    Answer,
    AskAgain,
    Axis,
    Either,
    Found,
    Heading,
    Listing,
    Note,
    Number,
    Outcome,
    Rows,
    Sheet,
    Span,
    Spans,
)
from ..asking.figures import fixed, plain_number
from ..models.counts.distributions import normal_quantile
from ..models.counts.enough import MARGIN, MOST_CORNS, corns_for_margin, corns_to_decide
from ..models.counts.intervals import clopper_pearson, lower_bound, wilson
from ..words import within

USUAL = (50, 100, 200, 400)

expected_percent = Number(
    "expected_percent",
    "Share you expect",
    "%",
    0,
    100,
    "Of corns that grow, are ready, or whatever you count.",
    example="80",
)
margin_points = Number(
    "margin_points",
    "Margin wanted, half the width",
    "points",
    100 * MARGIN.low,
    100 * MARGIN.high,
    "Of what the count leaves open. Far from 50 %, more of it lies on the side of 50 %.",
    example="10",
)
limit_percent = Number(
    "limit_percent",
    "Limit to be sure of",
    "%",
    0,
    100,
    "The share expected lies above or below it.",
)


def work(*, expected_percent: float, margin_points: float | None, limit_percent: float | None) -> Outcome:
    """Find the count, and show what 50, 100, 200 and 400 corns leave open."""
    share = expected_percent / 100.0
    notes: list[Note] = []
    if limit_percent is not None:
        corns, working = _for_limit(expected_percent, limit_percent)
    else:
        assert margin_points is not None
        corns, working = _for_margin(expected_percent, margin_points)
    low, high = (100.0 * end for end in clopper_pearson(share * corns, corns))
    rows = [_row(size, share, limit_percent) for size in USUAL]
    spans = tuple(
        Span(f"{size} corns", *_interval(size, share), limit_percent, _side(expected_percent, limit_percent))
        for size in USUAL
    )
    notes.append(
        Note(
            "remark",
            "Four times the corns halve the doubt. A fair sample matters more than a large one: 400 corns from one "
            "spot tell about that spot.",
        )
    )
    return Outcome(
        (
            Found("corns_to_count", float(corns), working),
            Found(
                "interval_then",
                expected_percent,
                f"exact 95 % interval at {plain_number(expected_percent)} % of {corns}: "
                f"{fixed(low, 1)} to {fixed(high, 1)} %",
                low,
                high,
            ),
        ),
        tables=(Rows("usual", rows),),
        notes=tuple(notes),
        charts=(
            Spans(
                "usual",
                "What a count leaves open",
                f"At {plain_number(expected_percent)} % counted, the line reaches over the shares that are still "
                "possible. More corns make it shorter.",
                Axis("Corns", "%", high=100.0, decimals=1),
                spans,
            ),
        ),
    )


def _side(expected: float, limit: float | None) -> Literal["above", "below"]:
    return "below" if limit is not None and expected < limit else "above"


def _for_margin(expected: float, margin: float) -> tuple[int, str]:
    share, reach = expected / 100.0, margin / 100.0
    corns = corns_for_margin(share=share, margin=reach)
    z = normal_quantile(0.975)
    usual = z * z * share * (1.0 - share) / reach**2
    low, high = (100.0 * end for end in wilson(share * corns, corns))
    return corns, (
        f"{fixed(z, 2)}² × {fixed(share, 3)} × {fixed(1 - share, 3)} / {fixed(reach, 3)}² = {fixed(usual, 1)}; "
        f"with {corns} corns Wilson’s interval is {fixed(low, 1)} to {fixed(high, 1)} %, "
        f"{fixed(high - low, 1)} points wide: {fixed(expected - low, 1)} below the share and "
        f"{fixed(high - expected, 1)} above"
    )


def _for_limit(expected: float, limit: float) -> tuple[int, str]:
    corns = corns_to_decide(share=expected / 100.0, limit=limit / 100.0)
    if corns is None:
        if expected == limit or limit in (0.0, 100.0):
            why = "No count can show on which side of it such a share lies."
        else:
            why = f"It lies so near the share expected that over {MOST_CORNS // 1000} thousand corns would be needed."
        raise AskAgain(
            "limit_percent",
            f"{plain_number(limit)} % against {plain_number(expected)} % cannot be decided. {why} "
            "Type a limit farther from the share.",
        )
    end = clopper_pearson(expected / 100.0 * corns, corns)
    edge, name = (end.low, "lower") if expected > limit else (end.high, "upper")
    return corns, (
        f"smallest count at which the {name} end of the exact 95 % interval passes {plain_number(limit)} %: "
        f"at {corns} corns it is {fixed(100 * edge, 2)} %"
    )


def _interval(size: int, share: float) -> tuple[float, float, float]:
    low, high = clopper_pearson(share * size, size)
    return 100.0 * share, 100.0 * low, 100.0 * high


def _row(size: int, share: float, limit: float | None) -> tuple[float | str | None, ...]:
    _, low, high = _interval(size, share)
    decided = None
    if limit is not None:
        decided = "yes" if low >= limit or high < limit else "no"
    return float(size), low, high, 100.0 * lower_bound(size, size), 100.0 * (1.0 - lower_bound(size, size)), decided


SHEET = Sheet(
    id="sample-size",
    title="Corns to count",
    purpose="How many corns to count for a wanted margin, or to be sure of a limit.",
    questions=(expected_percent, margin_points, limit_percent),
    either=(Either((("margin_points",), ("limit_percent",))),),
    answers=(
        Answer(
            "corns_to_count",
            "Count at least",
            "corns",
            0,
            lead=True,
            rounds_up=True,
            rests_on="for a margin z²p(1−p)/d², or Wilson’s interval where that asks for more; for a limit the exact "
            "interval, as the verdicts of the other sheets use it",
            trust="Right if the share turns out as expected. If not, the margin is wider or narrower.",
            next="Count them all, then judge once: [[sheet:germination-test]] or [[sheet:readiness]].",
            worked="model",
            within=within.corns("margin_points", "limit_percent"),
        ),
        Answer(
            "interval_then",
            "Then the count leaves open",
            "%",
            1,
            rests_on="exact binomial interval (Clopper and Pearson)",
            trust="It is a little wider than twice the margin, since it is never less than 95 % sure, and it reaches "
            "farther on the side of 50 %.",
            worked="model",
            within=within.part("expected_percent"),
        ),
    ),
    listings=(
        Listing(
            "usual",
            "What the usual counts can show",
            (
                Heading("corns", "Corns", within=within.corns()),
                Heading("low", "Expected share: from", "%", 1, within=within.part()),
                Heading("high", "to", "%", 1, within=within.part()),
                Heading("all", "If all show it, at least (one side)", "%", 1, within=within.part()),
                Heading("none", "If none shows it, at most (one side)", "%", 1, within=within.part()),
                Heading("decided", "Limit decided", kind="text"),
            ),
        ),
    ),
    work=work,
    sources=("clopper-pearson", "wilson-1927"),
    story="A readiness count planned at the example maltings: invented numbers.",
)
