"""The good hand plans the rest of a bed anew when the kiln is late, by the rules that the day-book plans by."""

from functools import lru_cache

from ..models.bounds import OutOfRange
from ..models.living.pace import growth_after_cast
from ..rules.limit import edge
from ..rules.limits import kiln_hand_over
from ..rules.replan.ways import Way
from .run import CASTS, of_day
from .setting import PAPER_MOISTURE
from .view import View

USUAL_BED = 43.0
_MARGIN_K = 0.5


def late_by_h(view: View) -> float:
    """Give in how many hours the kiln is free, by its own word, if a ready piece may not wait so long; else 0."""
    left = 0.0 if view.kiln_at is None or view.kiln_ready else (view.kiln_at - view.minute) / 60.0
    return left if left > edge(kiln_hand_over.READY_HOURS.accept_high) else 0.0


def way_for(view: View) -> Way | None:
    """Give the way through the rest of the bed that puts the grain first; None where the kiln is not late.

    Parameters
    ----------
    view : View
        A couch, a piece or a drum, as it is seen.
    """
    hours = late_by_h(view)
    temps = [_mean(read.code, read.more) for read in view.reads if read.code in ("by", "da")]
    if not hours or not temps or view.where not in ("floor", "drum"):
        return None
    oven = view.last("ov", view.since(*CASTS))
    moisture = oven.value if oven and oven.value is not None else USUAL_BED
    lain = view.since("tu", "br", "dt", *CASTS)
    return _planned(
        view.where, round(moisture, 1), round(temps[-1], 1), round(sum(temps) / len(temps), 1),
        round(1.0 + view.since(*CASTS) / 24.0, 1), round(lain, 1), of_day(view.minute) // 60, round(hours),
        round(view.since("sp"), 0),
    )  # fmt: skip


def _mean(code: str, more: tuple[float, ...]) -> float:
    return more[2] if code == "da" else (2.0 * more[0] + more[1]) / 3.0


@lru_cache(maxsize=64)
def _planned(
    vessel: str, moisture: float, temp_c: float, mean_c: float, day: float, lain: float, hour: int, late_h: int,
    since_water: float,
) -> Way | None:  # fmt: skip
    from ..rules.replan.bed import (
        BedNow,
        ways_of,
    )  # only when a kiln is late: no scene waits for it
    from ..rules.replan.faults import asked_by

    try:
        now = BedNow(
            "drum" if vessel == "drum" else "floor", PAPER_MOISTURE, moisture, temp_c,
            growth_after_cast(day=min(day, 30.0), temp_c=mean_c), lain, float(hour), load_h=float(late_h),
            since_water_h=since_water or float("inf"),
        )  # fmt: skip
        ways = ways_of(now, asked_by("kiln-late", hours=float(late_h))).ways
    except OutOfRange:
        return None
    return next((way for way in ways if "target" in way.words), None)


def held(view: View) -> View:
    """Give the view with the warmest piece that the way allows, where the kiln is late."""
    way = way_for(view)
    if way is None or way.hold_c is None:
        return view
    warmest = min(view.setting.warmest_c, way.hold_c + _MARGIN_K)
    return view._replace(setting=view.setting._replace(warmest_c=warmest))
