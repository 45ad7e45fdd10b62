"""Dry matter lost in malting, split as far as it is known, and the malt that a batch gives."""

from __future__ import annotations

from ..asking.declare import Answer, AskAgain, Belongs, Either, Found, Note, Number, Outcome, Sheet
from ..asking.figures import carried, few_digits, fixed, limits_said, plain_number
from ..models import bounds as limits
from ..models.bounds import Bounds, OutOfRange
from ..models.living.bed_days import AT_CAST_PERCENT
from ..models.weights.losses import TCW_G, malt_from, malting_loss, share_of_dry_matter
from ..models.weights.moisture import weight_after
from ..rules.conventions import MALTING_LOSS
from ..words import within
from ..words.lost import LAW, Lost, lost_by
from ..words.questions.grown import bed_temp_c, grown_days
from ..words.questions.shared import barley_kg, barley_moisture, malt_moisture, number

ROOTLETS_PERCENT = Bounds(0.0, 10.0)

malt_kg = number(
    "malt_kg",
    "Malt weight",
    "kg",
    limits.WEIGHT_KG,
    "Dressed: dried, and the rootlets taken off.",
    example="4150",
)
barley_tcw_g = number("barley_tcw_g", "A thousand barley corns", "g", TCW_G, "Counted and weighed as they are.")
malt_tcw_g = number("malt_tcw_g", "A thousand malt corns", "g", TCW_G, "Without rootlets, counted and weighed.")
rootlets_kg = number(
    "rootlets_kg",
    "Rootlets weighed",
    "kg",
    limits.WEIGHT_KG,
    "All of this batch, off the dressing machine.",
    example="150",
)
rootlets_moisture = number(
    "rootlets_moisture",
    "Their moisture",
    "%",
    Bounds(0.0, 60.0),
    "They draw water from the air within hours.",
    example="7",
)
rootlets_percent = number(
    "rootlets_percent",
    "Rootlets assumed",
    "%",
    ROOTLETS_PERCENT,
    "Of the barley’s dry matter: 3 in an old table, 3 to 5 from memory.",
)
steep_percent = Number(
    "steep_percent",
    "Lost in the steep",
    "%",
    0,
    5,
    "Of the dry matter, if you know it or assume it: 0.5 to 1.5 by practice.",
    example="1",
    optional=True,
)
planned_kg = Number(
    "planned_kg",
    "Batch planned",
    "kg",
    limits.WEIGHT_KG.low,
    limits.WEIGHT_KG.high,
    "Barley of the same moisture, to foresee its malt.",
    example="6000",
    optional=True,
)


def work(
    *,
    barley_kg: float | None,
    malt_kg: float | None,
    barley_tcw_g: float | None,
    malt_tcw_g: float | None,
    barley_moisture: float,
    malt_moisture: float,
    rootlets_kg: float | None,
    rootlets_moisture: float | None,
    rootlets_percent: float | None,
    steep_percent: float | None,
    planned_kg: float | None,
    grown_days: float | None,
    bed_temp_c: float | None,
) -> Outcome:
    """Balance the dry matter of barley and malt; take the known parts off the loss; set the rest beside the law."""
    by_corns = barley_kg is None
    before = barley_tcw_g if barley_kg is None else barley_kg
    after = malt_tcw_g if malt_kg is None else malt_kg
    assert before is not None and after is not None
    unit, question = ("g", "malt_tcw_g") if by_corns else ("kg", "malt_kg")
    try:
        loss = malting_loss(
            barley_kg=before, barley_moisture=barley_moisture, malt_kg=after, malt_moisture=malt_moisture
        )
    except OutOfRange as limit:
        raise AskAgain(
            question,
            f"{plain_number(after)} {unit} at {plain_number(malt_moisture)} % holds more dry matter than the barley "
            f"did. Type at most {limits_said(0.0, limit.high)[1]} {unit}, or check both moistures and weights.",
        ) from None
    dry_in = weight_after(weight_kg=before, moisture=barley_moisture, new_moisture=0.0)
    dry_out = weight_after(weight_kg=after, moisture=malt_moisture, new_moisture=0.0)
    found = [
        Found(
            "loss_percent",
            loss,
            f"dry matter in: {plain_number(before)} {unit} × (100 − {plain_number(barley_moisture)})/100 = "
            f"{carried(dry_in)} {unit}; dry matter out: {plain_number(after)} {unit} × (100 − "
            f"{plain_number(malt_moisture)})"
            f"/100 = {carried(dry_out)} {unit}; lost: 100 × ({carried(dry_in)} − {carried(dry_out)}) / "
            f"{carried(dry_in)} = {fixed(loss, 1)} %",
        ),
        Found(
            "yield_percent",
            100.0 * after / before,
            f"100 × {plain_number(after)} / {plain_number(before)} = {fixed(100 * after / before, 1)} %, "
            "each at its own moisture",
        ),
    ]
    notes: list[Note] = []
    rootlets, working = _rootlets(
        rootlets_kg, rootlets_moisture, rootlets_percent, None if by_corns else before, barley_moisture
    )
    if rootlets is not None:
        found.append(
            Found("rootlets_lost_percent", rootlets, working, worked="given" if rootlets_percent is not None else "sum")
        )
    if steep_percent is not None:
        found.append(Found("steep_lost_percent", steep_percent, "your own figure"))
    rest: float | None = None
    if rootlets is not None and steep_percent is not None:
        found.append(_breathing(loss, rootlets, steep_percent, by_corns, rootlets_kg is None))
        rest = loss - rootlets - steep_percent
    else:
        notes.append(Note("remark", "Give the rootlets and the loss in the steep to see what was breathed away."))
    if grown_days is not None and bed_temp_c is not None:
        by_law, said = _by_law(lost_by(days=grown_days, temp_c=bed_temp_c), rest, grown_days, bed_temp_c)
        found += by_law
        notes += said
    if planned_kg is not None:
        found.append(_planned(planned_kg, barley_moisture, malt_moisture, loss))
    notes.append(Note("remark", _WHAT_IT_COUNTS[by_corns]))
    if loss > MALTING_LOSS.high or loss < MALTING_LOSS.low:
        notes.append(
            Note(
                "remark",
                f"{fixed(loss, 1)} % is outside the usual {plain_number(MALTING_LOSS.low)} to "
                f"{plain_number(MALTING_LOSS.high)} % (from memory). Check weights and moistures first.",
            )
        )
    return Outcome(tuple(found), notes=tuple(notes))


_WHAT_IT_COUNTS = {
    False: "By weight of the batch, corns that were skimmed, spilt or screened off count as lost too.",
    True: "By a thousand corns, only what each corn lost counts. Corns skimmed, spilt or screened off do not.",
}


def _rootlets(
    weighed: float | None,
    moisture: float | None,
    assumed: float | None,
    barley: float | None,
    barley_moisture: float,
) -> tuple[float | None, str]:
    if assumed is not None:
        return assumed, "assumed, by your own figure"
    if weighed is None or moisture is None:
        return None, ""
    if barley is None:
        raise AskAgain(
            "rootlets_kg",
            "weighed rootlets need the weight of the batch beside them. Give barley and malt in kilograms, "
            "or give the rootlets as a share assumed.",
        )
    share = share_of_dry_matter(
        part_kg=weighed, part_moisture=moisture, barley_kg=barley, barley_moisture=barley_moisture
    )
    return share, (
        f"100 × {plain_number(weighed)} kg × (100 − {plain_number(moisture)}) / ({plain_number(barley)} kg × "
        f"(100 − {plain_number(barley_moisture)})) = {fixed(share, 1)} %"
    )


def _breathing(loss: float, rootlets: float, steep: float, by_corns: bool, assumed: bool) -> Found:
    rest = loss - rootlets - steep
    if rest < 0:
        raise AskAgain(
            "rootlets_percent" if assumed else "rootlets_kg",
            f"rootlets {few_digits(rootlets)} % and steep {few_digits(steep)} % together are more than the whole loss, "
            f"{fixed(loss, 1)} %. Check the weights, or give less.",
        )
    waste = "" if by_corns else ", and with what was spilt or screened off"
    return Found(
        "breathing_lost_percent",
        rest,
        f"{fixed(loss, 2)} − {fixed(rootlets, 2)} − {plain_number(steep)} = {fixed(rest, 1)} %{waste}",
    )


def _by_law(lost: Lost, rest: float | None, days: float, temp_c: float) -> tuple[list[Found], list[Note]]:
    """What the one law lets the batch breathe from the cast on, and how the batch's own rest stands beside it."""
    ends = [end - AT_CAST_PERCENT for end in (lost.percent, lost.low, lost.high)]
    when = f"{plain_number(days)} days at {plain_number(temp_c)} °C"
    found = [Found("breathing_by_law_percent", ends[0], f"of the barley’s dry matter, {when}", ends[1], ends[2])]
    if rest is None or ends[0] <= 0.0:
        return found, []
    against = rest / ends[0]
    working = f"{carried(rest)} / {carried(ends[0])} = {fixed(against, 2)}"
    found.append(Found("against_law", against, working))
    if rest > ends[2]:
        text = (
            f"{fixed(rest, 1)} % is more than the law lets {when} breathe, {fixed(ends[2], 1)} % at the far end. Corns "
            "skimmed, spilt or screened off are in it, and every error of weighing. Look for those first."
        )
        return found, [Note("remark", text)]
    if rest < ends[1]:
        text = (
            f"{fixed(rest, 1)} % is less than the law lets {when} breathe, {fixed(ends[1], 1)} % at the near end. "
            "Check weights and moistures, and whether the batch grew as it should."
        )
        return found, [Note("remark", text)]
    return found, []


def _planned(planned: float, barley_moisture: float, malt_moisture: float, loss: float) -> Found:
    malt = malt_from(barley_kg=planned, barley_moisture=barley_moisture, malt_moisture=malt_moisture, loss_percent=loss)
    return Found(
        "planned_malt_kg",
        malt,
        f"{plain_number(planned)} kg × (100 − {plain_number(barley_moisture)}) × (1 − {fixed(loss, 2)}/100) / "
        f"(100 − {plain_number(malt_moisture)}) = {fixed(malt, 0)} kg",
    )


_BALANCE = "conservation of dry matter; exact arithmetic"
_OLD = "An old published balance: steep 1.5, floor 3.0, roots 3.0, waste 0.5, together 8.0 %."
_WEIGHTS = "Check both weights and both moistures: are they of the same batch, and all of it?"
_LOSS = within.between(
    limits.DRY_MATTER_LOST_MALTING.low,
    limits.DRY_MATTER_LOST_MALTING.high,
    "No malting takes more.",
    "malt_kg",
    "malt_tcw_g",
    instead=_WEIGHTS,
)
_ROOTLETS = within.between(
    0.0,
    ROOTLETS_PERCENT.high,
    "Rootlets are a few per cent of the barley.",
    "rootlets_kg",
    "rootlets_percent",
    instead="Check their weight and its unit: are they of this batch alone?",
)

SHEET = Sheet(
    id="malting-loss",
    title="Malting loss",
    purpose="How much of the barley became malt, where the rest went, and what the next batch will give.",
    questions=(
        barley_kg._replace(example="5000"),
        malt_kg,
        barley_tcw_g,
        malt_tcw_g,
        barley_moisture,
        malt_moisture._replace(example="5"),
        rootlets_kg,
        rootlets_moisture,
        rootlets_percent,
        steep_percent,
        planned_kg,
        grown_days._replace(hint="From the cast to the kiln. To see what the one law lets it breathe.", example="5"),
        bed_temp_c._replace(example="15"),
    ),
    either=(
        Either((("barley_kg", "malt_kg"), ("barley_tcw_g", "malt_tcw_g"))),
        Either((("rootlets_kg", "rootlets_moisture"), ("rootlets_percent",)), required=False),
        Either((("grown_days", "bed_temp_c"),), required=False),
    ),
    answers=(
        Answer(
            "loss_percent",
            "Malting loss, of dry matter",
            "%",
            1,
            lead=True,
            rests_on=_BALANCE,
            trust="0.5 points wrong in either moisture moves it 0.5 points. " + _OLD,
            next="Keep it in the batch record: a run of batches says more than one.",
            within=_LOSS,
        ),
        Answer(
            "yield_percent",
            "Malt from 100 of barley, as weighed",
            "%",
            1,
            lead=True,
            rests_on="the two weights",
            trust="Moves with the moistures. Compare losses, not yields.",
            within=within.between(
                50.0, 115.0, "No malting leaves less or more.", "malt_kg", "malt_tcw_g", instead=_WEIGHTS
            ),
        ),
        Answer(
            "steep_lost_percent",
            "Of it, in the steep",
            "%",
            1,
            rests_on="the figure given",
            worked="given",
            within=within.between(0.0, limits.DRY_MATTER_LOST.high, "No steep leaches more.", "steep_percent"),
        ),
        Answer(
            "breathing_lost_percent",
            "Of it, breathed away",
            "%",
            1,
            rests_on="what is left of the loss",
            trust="It carries the errors of all the other parts.",
            within=_LOSS,
        ),
        Answer(
            "rootlets_lost_percent",
            "Of it, rootlets",
            "%",
            1,
            rests_on=_BALANCE,
            trust="As good as their moisture.",
            within=_ROOTLETS,
        ),
        Answer(
            "breathing_by_law_percent",
            "What the one law lets it breathe",
            "%",
            1,
            rests_on=LAW,
            trust="Old floors ask for half of it, warm boxes for nearly twice.",
            worked="model",
            within=_LOSS,
        ),
        Answer(
            "against_law",
            "Breathed away against the law",
            "",
            2,
            rests_on="the two lines above",
            trust="Carries all errors of the balance. One batch says little; the mean of a few is your house’s own.",
            next="Type the mean of some batches as heat against the law: [[sheet:bed-heat]], [[sheet:floor-round]].",
            within=within.between(0.0, 100.0, "No barley breathes so much more.", "grown_days", "bed_temp_c"),
        ),
        Answer(
            "planned_malt_kg",
            "Malt from the planned batch",
            "kg",
            0,
            lead=True,
            rests_on="the same loss and the same moistures",
            trust="Another barley, another season: another loss.",
            within=within.kilograms("planned_kg", most=1.2 * limits.WEIGHT_KG.high),
        ),
    ),
    work=work,
    belongs=(Belongs("loss_percent", ("malt_kg", "malt_tcw_g"), "the malting loss", "%"),),
    sources=("magb-malt-facts", "thomson-1824"),
    story="Batch example-02 of the example maltings: invented numbers.",
)
