"""Exercises on basket and oven."""

from __future__ import annotations

from ..models.weights.basket import basket_dry_matter
from ..models.weights.moisture import dry_basis
from .exercise import Case, Draw, Exercise, Pick, Slip
from .filling import FORGOT_LEACHED

CHAPTER = "moisture"


def dry_basis_of(answer: str) -> Slip:
    """The moisture given on the dry matter instead of the wet weight."""

    def formula(case: Case) -> float:
        return dry_basis(moisture=case.answers[answer])

    return Slip(
        "dry-basis",
        "That is the water as a share of the dry matter. Moisture here is the share of the wet weight: "
        "divide by all of the grain, water included.",
        formula=formula,
    )


def _water_share_of_gross(case: Case) -> float:
    v = case.values
    of = {name: v[name] for name in ("sample_g", "barley_moisture", "dry_matter_lost")}
    dry = basket_dry_matter(**of)
    return 100 * (1 - dry / v["gross_now_g"])


def _grain_without_basket(case: Case) -> float:
    return case.answers["gross_at_target_g"] - case.values["basket_g"]


def _share_of_dry(case: Case) -> float | None:
    return dry_basis(moisture=case.answers["moisture"])


def _added_losses(case: Case) -> float:
    first = case.values["predry_loss_percent"]
    second = 100 * (case.answers["moisture"] - first) / (100 - first)
    return first + second


_BASKET = (
    Draw("basket_g", 60, 120, 1),
    Draw("sample_g", 100, 250, 50),
    Draw("barley_moisture", 11, 14, 0.5),
    Draw("target_moisture", 43, 46, 0.5),
)

_PAIRS = (
    "40.0 41.2; 42.0 43.1; 43.0 44.4; 44.0 45.1; 45.0 46.2",
    "39.0 40.9; 41.0 42.7; 42.5 44.4; 44.0 46.0; 45.5 47.2",
    "41.0 40.1; 42.0 41.3; 43.5 42.5; 44.5 43.7; 46.0 45.2",
    "38.5 40.0; 40.5 42.1; 42.0 43.4; 44.5 46.1; 45.0 46.4",
)


def _wrong_way(case: Case) -> float:
    return 2.0 * case.answers["reading"] - case.answers["moisture"]


EXERCISES = (
    Exercise(
        "basket-now",
        CHAPTER,
        "sample-basket",
        (
            *_BASKET,
            Pick("dry_matter_lost", ("1",)),
            Pick("drained", ("drained",)),
            Draw("gross_now_g", 200, 500, 1),
        ),
        "moisture_now",
        "A steep basket weighs {basket_g} wet and empty. {sample_g} of barley at {barley_moisture} went into "
        "it. Drained, it now weighs {gross_now_g}. {dry_matter_lost} of the dry matter has leached away. What is "
        "the moisture of the grain, in per cent?",
        0.3,
        (
            Slip(
                "forgot-tare",
                "You left the basket’s own weight in. Take it off first.",
                formula=_water_share_of_gross,
            ),
            dry_basis_of("moisture_now"),
            Slip(
                "net-for-drained",
                "That is the moisture inside the corns, without the film. A drained basket shows the film too.",
                instead="net_moisture_now",
            ),
        ),
        "procedures/measuring-moisture",
        (31.0, 47.0),
    ),
    Exercise(
        "basket-at-target",
        CHAPTER,
        "sample-basket",
        (
            *_BASKET,
            Pick("dry_matter_lost", ("1",)),
            Pick("drained", ("drained",)),
            Draw("gross_now_g", 240, 400, 1),
        ),
        "gross_at_target_g",
        "A steep basket weighs {basket_g} wet and empty and holds {sample_g} of barley at {barley_moisture}. "
        "{dry_matter_lost} of the dry matter leaches away. What must the drained basket read, in grams, at "
        "{target_moisture}?",
        1.0,
        (
            Slip(
                "forgot-tare",
                "That is the grain alone. The scale shows the basket too.",
                formula=_grain_without_basket,
            ),
            FORGOT_LEACHED,
        ),
        "procedures/measuring-moisture",
    ),
    Exercise(
        "oven-two-stages",
        CHAPTER,
        "oven-moisture",
        (
            Pick("dishes", ("20 25 24.5", "20 25 24.45", "20 25 24.4", "20 30 29.1", "20 30 28.9")),
            Pick("material", ("steeped-corn",)),
            Draw("predry_loss_percent", 30, 42, 1),
        ),
        "moisture",
        "Wet grain lost {predry_loss_percent} of its weight when it was dried whole. A dish of the rest, ground, "
        "weighed (empty, before, after the oven): {dishes}. What was the moisture of the wet grain, in per cent?",
        0.2,
        (
            Slip(
                "added-losses",
                "You added the two losses. The second counts on what the first left, so multiply what stays.",
                formula=_added_losses,
            ),
            Slip(
                "forgot-first",
                "That is the moisture of the pre-dried grain alone. Bring in the first loss.",
                changed=(("predry_loss_percent", "0"),),
            ),
            Slip("dry-basis", dry_basis_of("moisture").says, formula=_share_of_dry),
        ),
        "procedures/measuring-moisture",
    ),
    Exercise(
        "quick-corrected",
        CHAPTER,
        "quick-moisture",
        (Pick("pairs", _PAIRS), Draw("quick_now", 40, 45, 0.5)),
        "moisture",
        "A drying balance has five pairs with the oven (quick, oven): {pairs}. It now shows {quick_now}. What would "
        "the "
        "oven say, in per cent, by the mean of the differences?",
        0.2,
        (
            Slip("not-corrected", "That is the reading itself. Add the mean of oven less quick.", instead="reading"),
            Slip(
                "wrong-way",
                "You took the difference off where it has to be added, or the other way round: it is oven less quick.",
                formula=_wrong_way,
            ),
        ),
        "procedures/quick-moisture",
    ),
)
