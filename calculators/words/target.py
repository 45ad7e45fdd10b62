"""What is said of a moisture past a stop of the cast: of the target, or of the grain as it is."""

from __future__ import annotations

from ..asking.declare import Note
from ..rules.limits.casting import MOISTURE
from ..rules.lines import passed
from .limits import stop_said


def past_target(moisture: float) -> list[Note]:
    """A notice where a target [%] lies past a stop of the moisture at the cast, on either side; else nothing."""
    line = passed(MOISTURE, moisture)
    if line is None or line.mark != "stop":
        return []
    text = f"Past a stop: the target. {stop_said(line, act=False)} Set another target"
    return [Note("notice", f"{text}: [[page:procedures/casting#limits|limits]].")]


def past_moisture(moisture: float) -> list[Note]:
    """A notice where grain in the steep [%] is wetter than the stop of the cast: drier it may still become wet."""
    line = passed(MOISTURE, moisture, high_only=True)
    if line is None or line.mark != "stop":
        return []
    return [Note("notice", f"Past a stop: the grain as it is. No more water: drain it now. {stop_said(line)}")]
