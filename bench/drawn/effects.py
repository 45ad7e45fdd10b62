"""What carbon dioxide does, by how much of it there is."""

from __future__ import annotations

from math import log10, pi

from bench.drawn.kit import GAS, GAS_BY_STRENGTH, Plate, box
from bench.drawn.people import STANDS, WALKS, Pose, person, turned

_SWAYS = Pose(
    (0.13, 0.88), (0.06, 0.78), (-0.03, 0.47),
    ((0.17, 0.70), (0.15, 0.86)), ((-0.08, 0.62), (-0.15, 0.50)),
    ((0.07, 0.26), (0.03, 0.02)), ((-0.10, 0.26), (-0.17, 0.02)),
)  # fmt: skip
_SINKS = Pose(
    (0.27, 0.44), (0.15, 0.38), (-0.06, 0.10),
    ((0.24, 0.20), (0.32, 0.05)), ((0.10, 0.20), (0.04, 0.06)),
    ((0.14, 0.24), (0.24, 0.03)), ((0.10, 0.16), (0.30, 0.05)),
)  # fmt: skip
_LEFT, _RIGHT = 62.0, 104.0
_MOST, _LEAST = 30.0, 0.04  # per cent, at the ends of the column


def _at(percent: float) -> float:
    """How high it stands: each step up the scale is ten times as much."""
    return 250.0 - 124.0 * log10(percent)


def co2_effects() -> Plate:
    plate = Plate(
        "co2-effects",
        496,
        "What carbon dioxide does, by concentration",
        "One column, hatched from bottom to top, closer the higher it goes, on a scale that grows tenfold at each "
        "step. 0.04 per cent: outdoor air. 0.5: limit for the mean of a working day. 1: the strictest ceiling of any "
        "country; leave. A person is drawn who goes out. 1.5: British limit for 15 minutes. 3: American limit for a "
        "short time. 4: dangerous to life at once. 5: intoxicated within 30 minutes; a person sways, hand to head. 7 "
        "to 10: unconscious within a few minutes; a person has sunk to the floor. 9: five minutes have killed. 17 to "
        "30: unconscious within a minute, then death; a person lies flat. No part of the column is marked as free of "
        "harm.",
    )
    plate.text(4, 20, "Carbon dioxide in the air", strong=True)
    steps = (_LEAST, 0.5, 4.0, 10.0, _MOST)
    plate.fill(box(_LEFT, _at(_MOST), _RIGHT - _LEFT, _at(_LEAST) - _at(_MOST)), GAS)
    for kind, low, high in zip(GAS_BY_STRENGTH, steps[:-1], steps[1:], strict=True):
        plate.textured(box(_LEFT, _at(high), _RIGHT - _LEFT, _at(low) - _at(high)), kind)
        plate.path(f"M{_LEFT} {_at(low):.1f} L{_RIGHT} {_at(low):.1f}", "line", 1.5)
    plate.path(box(_LEFT, _at(_MOST), _RIGHT - _LEFT, _at(_LEAST) - _at(_MOST)), "shell", 4)
    for percent in (0.1, 1.0, 10.0):
        y = _at(percent)
        plate.path(f"M{_LEFT - 8} {y:.1f} L{_LEFT} {y:.1f}", "line", 1.5)
        plate.text(_LEFT - 11, y + 5, f"{percent:g} %", anchor="end")
    for low, high in ((17.0, 30.0), (7.0, 10.0)):
        plate.path(f"M{_RIGHT + 6} {_at(low):.1f} L{_RIGHT + 6} {_at(high):.1f}", "line thick", 3)
    for said, at, y, words in (
        ("17–30 %", 22.6, 52, ("within a minute: falls,", "unconscious, dies")),
        ("7–10 %", 8.4, 114, ("unconscious in a few", "minutes; at 9 %, five", "minutes have killed")),
        ("5 %", 5.0, 194, ("intoxicated within", "30 minutes")),
    ):
        start = _RIGHT + (8 if "–" in said else 2)
        plate.leader(f"M{start} {_at(at):.1f} L128 {y - 5}")
        plate.text(132, y, said, strong=True)
        plate.lines_of_text(132, y + 17, *words)
    for said, at, y, line in (
        ("4 %", 4.0, 256, "dangerous to life at once"),
        ("3 %", 3.0, 282, "US short-term limit"),
        ("1.5 %", 1.5, 308, "UK limit, 15 minutes"),
        ("1 %", 1.0, 334, "strictest ceiling: leave"),
        ("0.5 %", 0.5, 360, "limit for the mean of a day"),
        ("0.04 %", _LEAST, 428, "outdoor air"),
    ):
        plate.leader(f"M{_RIGHT + 2} {_at(at):.1f} L128 {y - 5}")
        plate.text(132, y, said, strong=True)
        plate.text(186, y, line)
    for y in (80, 158, 238, 436):
        plate.path(f"M322 {y} L376 {y}", "line thick", 3)
    person(plate, 319, 71, 56, turned(STANDS, pi / 2))
    person(plate, 342, 156, 60, _SINKS)
    person(plate, 348, 236, 60, _SWAYS)
    person(plate, 346, 434, 60, WALKS)
    plate.lines_of_text(
        4, 466, "Each step up the scale is ten times as much. No part", "of the column is free of harm."
    )
    return plate
