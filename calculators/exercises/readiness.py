"""Exercises on the count of acrospires, and what it decides."""

from __future__ import annotations

from ..rules.limit import edge
from ..rules.limits.readiness import OVERSHOT, READY
from .corns import acrospires, by_the_formula
from .exercise import Beside, Case, Draw, Exercise, Made, Pick, Slip

CHAPTER = "readiness"
_VERDICTS = ("kiln-now", "wait", "count-more", "late")
_KILN, _WAIT, _, _LATE = range(1, 5)
_MADE = Made(("counts",), acrospires)


def _classes(case: Case) -> list[float]:
    return [float(row) for row in case.typed["counts"].split(";")]


def _in_the_class(case: Case) -> float:
    counts = _classes(case)
    return 100 * counts[3] / sum(counts)


def _of_all_but_overshot(case: Case) -> float:
    counts = _classes(case)
    return 100 * counts[3] / sum(counts[:4])


def _overshot_of_ready(case: Case) -> float:
    counts = _classes(case)
    return 100 * counts[4] / (counts[3] + counts[4])


def _there(case: Case) -> bool:
    return case.answers["share_ready"] >= edge(READY.accept_low)


def _only_those_within(case: Case) -> float | None:
    fooled = _there(case) and _in_the_class(case) < edge(READY.accept_low)
    return _WAIT if fooled and case.words["verdict"] == "kiln-now" else None


def _without_the_far_end(case: Case) -> float | None:
    return _KILN if case.words["verdict"] == "late" else None


def _wait_with_the_far_end_out(case: Case) -> float | None:
    return _WAIT if case.words["verdict"] == "late" else None


def _late_by_any(case: Case) -> float | None:
    some = edge(OVERSHOT.stop_high) / 2 <= case.answers["share_overshot"] < edge(OVERSHOT.stop_high)
    return _LATE if some else None


def _nearly_there(case: Case) -> float | None:
    nearly = not _there(case) and case.answers["share_ready"] >= 0.75 * edge(READY.accept_low)
    return _KILN if nearly and case.words["verdict"] == "wait" else None


def _never_ready(case: Case) -> float | None:
    return _WAIT if case.words["verdict"] == "kiln-now" else None


def _open_and_gone(case: Case) -> float | None:
    return _KILN if case.words["verdict"] == "count-more" else None


def _open_and_waited(case: Case) -> float | None:
    return _WAIT if case.words["verdict"] == "count-more" else None


EXERCISES = (
    Exercise(
        "three-quarters-and-beyond",
        CHAPTER,
        "readiness",
        (_MADE,),
        "share_ready",
        "Corns by the length of the acrospire, in parts of the corn: {counts}. "
        "How many per cent have come three quarters of the way or further?",
        0.5,
        (
            Slip(
                "without-those-beyond",
                "You left out the corns past the end. They have three quarters too, and wait for nothing.",
                formula=_in_the_class,
            ),
            Slip(
                "overshot-not-counted",
                "You took the corns past the end out of the count. They are corns of the piece like the others.",
                formula=_of_all_but_overshot,
            ),
        ),
        "procedures/readiness",
    ),
    Exercise(
        "overshot-share",
        CHAPTER,
        "readiness",
        (
            _MADE,
            Beside("bed", 13, 18, 0.5, "at {} °C"),
            Beside("kiln", 2, 12, 1, "free in {} hours"),
        ),
        "share_overshot",
        "A piece that lies {bed} is counted; the kiln is {kiln}. By the length of the acrospire, in parts of the "
        "corn: {counts}. How many per cent are overshot? Not every number here is needed.",
        0.4,
        (
            Slip(
                "of-those-ready",
                "You divided by the corns that are ready. A share of the piece is a share of all corns counted.",
                formula=_overshot_of_ready,
            ),
            Slip("ready-for-overshot", "That is the share at three quarters and beyond.", instead="share_ready"),
        ),
        "procedures/readiness",
    ),
    Exercise(
        "what-the-count-decides",
        CHAPTER,
        "readiness",
        (_MADE,),
        "verdict",
        "Corns by the length of the acrospire, in parts of the corn: {counts}. Rub and smell are in order. The house "
        "wants the target share of the handbook. Put it into the sheet that judges readiness. What does it say?",
        0.4,
        (
            Slip(
                "without-those-beyond",
                "You left out the corns past the end. They have three quarters too.",
                formula=_only_those_within,
                always=False,
            ),
            Slip(
                "far-end-forgotten",
                "You looked at the share that is ready alone. How many have run out at the far end?",
                formula=_without_the_far_end,
                always=False,
            ),
            Slip(
                "waited-past-the-end",
                "So many have run out at the far end that it is late, whatever the share that is ready.",
                formula=_wait_with_the_far_end_out,
                always=False,
            ),
            Slip(
                "late-too-soon",
                "Some always run out. It is late from the limit on.",
                formula=_late_by_any,
                always=False,
            ),
            Slip(
                "nearly-there",
                "Nearly is under the target, and it grows by itself.",
                formula=_nearly_there,
                always=False,
            ),
            Slip(
                "never-ready",
                "By this count it is ready now. A wait lets more of them run out at the far end.",
                formula=_never_ready,
                always=False,
            ),
            Slip(
                "open-and-gone",
                "So few corns leave it open. Count more before it is loaded.",
                formula=_open_and_gone,
                always=False,
            ),
            Slip(
                "open-and-waited",
                "So few corns leave it open: it may be ready already. Count more before you wait.",
                formula=_open_and_waited,
                always=False,
            ),
        ),
        "procedures/readiness",
        among=_VERDICTS,
    ),
    Exercise(
        "corns-for-readiness",
        CHAPTER,
        "sample-size",
        (Draw("expected_percent", 60, 90, 1), Pick("margin_points", ("5", "6", "8", "10"))),
        "corns_to_count",
        "You expect about {expected_percent} of the corns to have come three quarters of the way and want to know it "
        "within {margin_points}. How many corns must you count?",
        4.0,
        (
            Slip(
                "half-margin",
                "That is for twice the margin. Half the margin takes about four times the corns.",
                formula=lambda case: case.answers["corns_to_count"] / 4,
            ),
        ),
        "procedures/readiness",
        also=by_the_formula,
    ),
)
