"""People at work, by their joints: jacket, trousers, boots, gloves and a cap, seen from the side.

Each limb is a round line in ink with a narrower one on it, so that a fore arm shows before a body in any light.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, cos, degrees, hypot, sin
from typing import NamedTuple
from xml.etree.ElementTree import SubElement

from bench.drawn.kit import Plate, Point, poly

_EDGE = 2.6  # of ink round a limb


class Pose(NamedTuple):
    """Where the joints are, in parts of the body's height from a point on the ground; x forward, y up."""

    head: Point
    neck: Point
    hip: Point
    near_arm: tuple[Point, Point]
    far_arm: tuple[Point, Point]
    near_leg: tuple[Point, Point]
    far_leg: tuple[Point, Point]


STANDS = Pose(
    (0.015, 0.925), (0, 0.80), (0, 0.48),
    ((0.02, 0.63), (0.05, 0.48)), ((-0.03, 0.63), (0.0, 0.48)),
    ((0.03, 0.26), (0.03, 0.02)), ((-0.05, 0.26), (-0.06, 0.02)),
)  # fmt: skip
LOOKS_DOWN = Pose(
    (0.12, 0.87), (0.06, 0.77), (-0.01, 0.47),
    ((0.14, 0.62), (0.24, 0.56)), ((0.10, 0.60), (0.22, 0.54)),
    ((0.02, 0.25), (0.0, 0.02)), ((-0.08, 0.26), (-0.10, 0.02)),
)  # fmt: skip
REACHES = Pose(
    (0.07, 0.91), (0.03, 0.79), (-0.02, 0.48),
    ((0.15, 0.70), (0.29, 0.66)), ((0.12, 0.66), (0.25, 0.60)),
    ((0.04, 0.26), (0.03, 0.02)), ((-0.10, 0.27), (-0.13, 0.02)),
)  # fmt: skip
STEPS_BACK = Pose(
    (-0.03, 0.92), (-0.04, 0.79), (-0.05, 0.48),
    ((0.08, 0.69), (0.20, 0.78)), ((0.05, 0.66), (0.17, 0.72)),
    ((0.04, 0.27), (0.09, 0.02)), ((-0.10, 0.26), (-0.20, 0.02)),
)  # fmt: skip
ARMS_UP = Pose(
    (0.0, 0.90), (0, 0.78), (0, 0.46),
    ((0.13, 0.92), (0.15, 1.11)), ((-0.13, 0.92), (-0.15, 1.11)),
    ((0.05, 0.24), (0.06, 0.02)), ((-0.05, 0.24), (-0.06, 0.02)),
)  # fmt: skip
FALLS = Pose(
    (0.03, 0.90), (0, 0.78), (-0.08, 0.48),
    ((0.16, 0.86), (0.30, 0.94)), ((-0.16, 0.80), (-0.28, 0.92)),
    ((0.08, 0.34), (0.02, 0.12)), ((-0.14, 0.26), (-0.28, 0.16)),
)  # fmt: skip
DIGS = Pose(
    (0.17, 0.86), (0.10, 0.76), (-0.03, 0.46),
    ((0.18, 0.58), (0.32, 0.52)), ((0.08, 0.56), (0.16, 0.42)),
    ((0.08, 0.26), (0.05, 0.02)), ((-0.12, 0.26), (-0.22, 0.02)),
)  # fmt: skip
WALKS = Pose(
    (0.05, 0.92), (0.02, 0.79), (0, 0.48),
    ((-0.03, 0.63), (0.05, 0.52)), ((0.08, 0.63), (0.18, 0.56)),
    ((0.09, 0.27), (0.11, 0.02)), ((-0.04, 0.26), (-0.16, 0.07)),
)  # fmt: skip
BENDS = Pose(
    (0.36, 0.72), (0.27, 0.67), (-0.03, 0.47),
    ((0.31, 0.48), (0.34, 0.31)), ((0.27, 0.48), (0.30, 0.31)),
    ((0.05, 0.26), (0.01, 0.02)), ((-0.01, 0.26), (-0.07, 0.02)),
)  # fmt: skip


def person(plate: Plate, x: float, y: float, height: float, pose: Pose, facing: int = 1, upto: float = 0.0) -> None:
    """Draw a person.

    Parameters
    ----------
    plate : Plate
        On what.
    x, y : float
        The point of the ground below the hip.
    height : float
        Of the person standing.
    pose : Pose
        One of those above.
    facing : int
        1 to the right, -1 to the left.
    upto : float
        What lies lower than this part of the height is in the grain, and not drawn.
    """

    def at(point: Point) -> Point:
        return x + facing * point[0] * height, y - point[1] * height

    def limb(points: Sequence[Point], wide: float, style: str) -> None:
        shown = [at(one) for one in _above(points, upto)]
        if len(shown) < 2:
            return
        wide *= height
        plate.path(poly(*shown, shut=False), "limb-edge", wide + _EDGE, stroke_width=_w(wide + _EDGE))
        plate.path(poly(*shown, shut=False), style, seen=False, stroke_width=_w(wide))

    def foot(ankle: Point) -> None:
        if ankle[1] > upto:
            limb((ankle, (ankle[0] + 0.075, ankle[1] - 0.005)), 0.055, "limb-boot")

    def arm(joints: tuple[Point, Point]) -> None:
        shoulder = (pose.neck[0], pose.neck[1] - 0.025)
        limb((shoulder, *joints), 0.075, "limb-jacket")
        limb((joints[1], _on(joints[0], joints[1], 0.035)), 0.06, "limb-glove")

    def leg(joints: tuple[Point, Point]) -> None:
        limb((pose.hip, *joints), 0.09, "limb-trousers")
        foot(joints[1])

    arm(pose.far_arm)
    leg(pose.far_leg)
    leg(pose.near_leg)
    limb((pose.neck, pose.hip), 0.15, "limb-jacket")
    _head(plate, at(pose.head), at(pose.neck), height, facing)
    arm(pose.near_arm)


def _head(plate: Plate, centre: Point, neck: Point, height: float, facing: int) -> None:
    """A face with a cap, leaning as the neck does."""
    r = 0.066 * height
    lean = degrees(atan2(centre[0] - neck[0], neck[1] - centre[1])) * 0.8
    group = SubElement(plate.root, "g", {"transform": f"translate({_w(centre[0])} {_w(centre[1])}) rotate({_w(lean)})"})
    SubElement(group, "circle", {"class": "limb-face", "cx": "0", "cy": "0", "r": _w(r)})
    f = facing
    cap = (
        f"M{_w(-f * r * 1.05)} {_w(-r * 0.3)} Q{_w(-f * r)} {_w(-r * 1.35)} 0 {_w(-r * 1.35)} Q{_w(f * r)} "
        f"{_w(-r * 1.35)} "
        f"{_w(f * r * 1.05)} {_w(-r * 0.5)} L{_w(f * r * 1.8)} {_w(-r * 0.3)} L{_w(f * r * 1.75)} {_w(-r * 0.02)} Z"
    )
    SubElement(group, "path", {"class": "limb-cap", "d": cap})
    x, y = centre
    plate.lines.append(([(x - r, y), (x, y - 1.3 * r), (x + r, y), (x, y + r), (x - r, y)], 2))


def wears(plate: Plate, x: float, y: float, height: float, pose: Pose, what: str, facing: int = 1) -> None:
    """Put on the face of a person drawn before: a ``mask`` over mouth and nose, or a ``visor`` before all of it."""
    cx, cy = x + facing * pose.head[0] * height, y - pose.head[1] * height
    nx, ny = x + facing * pose.neck[0] * height, y - pose.neck[1] * height
    lean = degrees(atan2(cx - nx, ny - cy)) * 0.8
    r = 0.066 * height
    group = SubElement(plate.root, "g", {"transform": f"translate({_w(cx)} {_w(cy)}) rotate({_w(lean)})"})

    def at(u: float, v: float) -> str:
        return f"{_w(facing * r * u)} {_w(r * v)}"

    if what == "mask":
        shell = f"M{at(0.25, 0.05)} L{at(1.15, 0.1)} Q{at(1.6, 0.6)} {at(1.0, 1.0)} L{at(0.35, 0.9)} Z"
        SubElement(group, "path", {"class": "paper", "d": f"{shell} M{at(0.25, 0.3)} L{at(-0.9, 0.2)}"})
    else:
        pane = (
            f"M{at(0.7, -0.75)} L{at(1.55, -0.6)} Q{at(1.9, 0.4)} {at(1.35, 1.35)} L{at(0.55, 1.1)} "
            f"Q{at(0.9, 0.2)} {at(0.7, -0.75)} Z"
        )
        SubElement(group, "path", {"class": "visor", "d": pane})


def _on(a: Point, b: Point, more: float) -> Point:
    """A little further along the same way."""
    far = hypot(b[0] - a[0], b[1] - a[1]) or 1.0
    return b[0] + (b[0] - a[0]) / far * more, b[1] + (b[1] - a[1]) / far * more


def _above(points: Sequence[Point], low: float) -> list[Point]:
    """The part of a limb above a height, cut off where it goes below."""
    shown: list[Point] = []
    for n, point in enumerate(points):
        if point[1] >= low:
            shown.append(point)
            continue
        if n and points[n - 1][1] > low:
            a = points[n - 1]
            part = (a[1] - low) / (a[1] - point[1])
            shown.append((a[0] + (point[0] - a[0]) * part, low))
        break
    return shown


def turned(pose: Pose, angle: float) -> Pose:
    """The same pose leaning by an angle in radians, forward if it is more than 0."""

    def at(point: Point) -> Point:
        return point[0] * cos(angle) + point[1] * sin(angle), point[1] * cos(angle) - point[0] * sin(angle)

    def both(points: tuple[Point, Point]) -> tuple[Point, Point]:
        return at(points[0]), at(points[1])

    return Pose(at(pose.head), at(pose.neck), at(pose.hip), both(pose.near_arm), both(pose.far_arm),
                both(pose.near_leg), both(pose.far_leg))  # fmt: skip


def _w(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")
