"""A corn cut lengthwise, drawn as far on as it is: acrospire along the back, opened store, roots.

The outlines are those of the drawings of the pages: the root end at the left, the back upwards.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..asking.declare import Shape

Point = tuple[float, float]
Curve = tuple[Point, Point, Point, Point]

WIDE, HIGH = 320.0, 140.0
"""Room that one corn takes, the roots and a shoot that stands out not counted."""

LONGEST = 1.35
"""No shoot is drawn longer [corn lengths]."""

HUSK = "M20 86 C34 42 80 24 140 25 C212 27 272 52 300 84 C268 114 212 130 150 130 C90 130 40 120 20 86 Z"
_GERM = "M22 85 C35 47 66 32 93 30 C86 62 58 88 25 95 Z"
_SCUTELLUM = "M93 30 C86 62 58 88 25 95 L33 101 C62 92 90 66 100 33 Z"
_STORE: tuple[Curve, ...] = (
    ((100, 33), (116, 31), (130, 31), (140, 31)),
    ((140, 31), (208, 33), (264, 56), (290, 84)),
    ((290, 84), (262, 108), (208, 124), (150, 124)),
    ((150, 124), (100, 124), (56, 117), (33, 101)),
    ((33, 101), (62, 92), (90, 66), (100, 33)),
)
_BACK: tuple[Curve, ...] = (
    ((34, 80), (42, 56), (70, 42), (100, 37)),
    ((100, 37), (112, 35), (128, 35), (140, 35)),
    ((140, 35), (206, 36), (262, 58), (296, 84)),
    ((296, 84), (316, 104), (352, 92), (394, 74)),
)
_LEAN = 0.6
"""The opened store reaches further along the back than along the furrow: a lean of its front [-]."""

_PARTS = 10
_CHIT = "M27 82 C14 78 6 84 4 91 C10 98 20 98 29 94 Z"
_ROOTS: tuple[Curve, ...] = (
    ((24, 90), (4, 92), (-14, 104), (-30, 100)),
    ((24, 92), (10, 106), (2, 122), (-16, 132)),
    ((26, 94), (24, 112), (36, 124), (30, 146)),
    ((23, 88), (2, 80), (-16, 84), (-34, 72)),
    ((28, 96), (40, 116), (58, 128), (66, 150)),
)


def _at(curve: Curve, t: float) -> Point:
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = curve
    u = 1.0 - t
    p, q, r, s = u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t
    return p * ax + q * bx + r * cx + s * dx, p * ay + q * by + r * cy + s * dy


def _along(curves: Sequence[Curve]) -> list[Point]:
    return [_at(curve, n / _PARTS) for curve in curves for n in range(_PARTS + 1)]


def said(points: Sequence[Point], closed: bool = True) -> str:
    """Points as a path."""
    return "M" + " L".join(f"{x:.1f} {y:.1f}" for x, y in points) + (" Z" if closed else "")


def _front(point: Point) -> float:
    return point[0] + _LEAN * (point[1] - 31.0)


def _opened(part: float) -> list[Point]:
    """The store behind its front: the outline cut by a leaning line."""
    outline = _along(_STORE)
    places = [_front(point) for point in outline]
    front = min(places) + part * (max(places) - min(places))
    kept: list[Point] = []
    for (one, at), (other, there) in zip(
        zip(outline, places, strict=True), zip(outline[1:] + outline[:1], places[1:] + places[:1], strict=True),
        strict=True,
    ):  # fmt: skip
        if at <= front:
            kept.append(one)
        if (at <= front) is not (there <= front):
            t = (front - at) / (there - at)
            kept.append((one[0] + t * (other[0] - one[0]), one[1] + t * (other[1] - one[1])))
    return kept


def shoot(length: float, half: float = 5.2) -> list[Point]:
    """A blade along the back that ends where so much of the corn's length is passed; ``half`` as wide at its foot."""
    end = 20.0 + 280.0 * min(length, LONGEST)
    track = [point for point in _along(_BACK) if point[0] <= end]
    if len(track) < 2:
        return []
    wide = [half * (1.0 - 0.55 * n / len(track)) * min(1.0, 0.2 + (end - x) / 24.0) for n, (x, _) in enumerate(track)]
    upper = [(x, y - w) for (x, y), w in zip(track, wide, strict=True)]
    lower = [(x, y + w) for (x, y), w in zip(track, wide, strict=True)]
    tip = (end, track[-1][1] + (end - track[-1][0]) * 0.4)
    return [*upper, tip, *reversed(lower)]


def _root(curve: Curve, part: float) -> list[Point]:
    return [_at(curve, part * n / _PARTS) for n in range(_PARTS + 1)]


def corn(
    *, acrospire: float, opened: float, x: float, y: float, scale: float, chitted: bool = True
) -> tuple[Shape, ...]:
    """Shapes of one corn.

    Parameters
    ----------
    acrospire : float
        Length of the shoot [corn lengths], 0 or more; drawn no longer than 1.35.
    opened : float
        Part of the store that is open [-], 0 to 1.
    x, y : float
        Where its upper left corner lies.
    scale : float
        Size against the drawings of the pages [-].
    chitted : bool, optional
        Whether the root has broken through.

    Returns
    -------
    tuple of Shape
        From the husk inwards. Roots grow with the shoot, up to three quarters; their length is for the look.
    """
    shapes = [(HUSK, "husk"), (HUSK, "coat"), (said(_along(_STORE)), "endosperm")]
    if opened > 0.0:
        shapes.append((said(_opened(min(opened, 1.0))), "opened"))
    shapes += [(_GERM, "germ"), (_SCUTELLUM, "scutellum")]
    out = min(acrospire / 0.75, 1.0)
    for n, curve in enumerate(_ROOTS):
        part = min(max(out * (len(_ROOTS) + 1) - n, 0.0), 2.0) / 2.0
        if part > 0.0:
            shapes.append((said(_root(curve, part), closed=False), "root"))
    if chitted and out <= 0.2:
        shapes.append((_CHIT, "chit"))
    blade = shoot(acrospire)
    if blade:
        shapes.append((said(blade), "chit"))
    return tuple(Shape(moved(path, x, y, scale), style) for path, style in shapes)


def moved(path: str, x: float, y: float, scale: float) -> str:
    """A path at its place: letters stay, numbers go in pairs."""
    words, across = [], True
    for word in path.replace("M", "M ").replace("C", "C ").replace("L", "L ").split():
        if word.isalpha():
            words.append(word)
            continue
        words.append(f"{float(word) * scale + (x if across else y):.1f}")
        across = not across
    return " ".join(words)
