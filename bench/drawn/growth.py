"""What a handful tells: corns with the husk lifted from the back, their shoot and their roots."""

from __future__ import annotations

from collections.abc import Sequence

from bench.drawn.kit import GRAIN, Plate, box, poly
from calculators.words.corn_drawn import HUSK, moved, said, shoot

_CORN = 280.0  # of the outline, from end to end
_LONG_MM = 9.0
_ROOTS = (
    "M24 92 C2 94 -14 106 -32 100 C-44 96 -40 84 -30 88",
    "M25 95 C6 106 -8 120 -26 128 C-38 132 -44 122 -36 116",
    "M27 97 C18 112 16 130 2 142 C-8 150 -18 142 -10 134",
    "M23 89 C2 82 -16 86 -34 72 C-44 62 -36 52 -28 60",
    "M30 99 C34 118 50 130 52 146 C52 158 38 160 38 150",
    "M22 87 C8 74 -6 74 -18 58 C-24 46 -12 40 -8 50",
)
_FIRST = ("M24 92 C8 94 -6 100 -18 96", "M26 96 C14 106 6 118 -8 122", "M28 98 C26 112 34 124 28 138")
_CHIT = "M28 82 C14 78 5 84 3 91 C9 98 20 99 30 95 Z"


def _peeled(plate: Plate, x: float, y: float, scale: float, length: float, roots: Sequence[str]) -> None:
    """A corn from its side; along the back the husk is lifted, and the shoot lies in the gap."""

    def put(d: str, style: str, wide: float, *, seen: bool = False) -> None:
        plate.path(moved(d, x, y, scale), style, wide, seen=seen)

    for root in roots:
        put(root, "root", 2, seen=True)
    if length > 1.0:
        put(said(shoot(length, 14.0)), "chit", 1.2, seen=True)
    put(HUSK, "big-corn", 2, seen=True)
    put("M44 104 C100 122 210 122 282 92", "rib", 1)
    put("M38 94 C110 106 210 104 288 86", "rib", 1)
    put("M84 78 C130 66 190 68 244 82", "light", 2)
    put(said(shoot(0.98, 12.5)), "furrow", 0)
    if length > 0.0:
        put(said(shoot(min(length, 1.0), 8.5)), "chit", 1.2)
    put(HUSK, "husk-edge", 1.6)
    if not roots:
        put(_CHIT, "chit", 1.2, seen=True)


def classes() -> Plate:
    plate = Plate(
        "acrospire-classes",
        524,
        "The five classes of acrospire length",
        "Five corns under each other, root end at the left, back upwards, husk lifted along the back, with dotted "
        "lines at every quarter of the corn. The acrospire is a white strip along the back. First corn: it ends "
        "before one quarter. Second: between a quarter and a half. Third: between a half and three quarters. Fourth: "
        "between three quarters and the whole, ready by its length. Fifth: it has come out past the tip, overshot.",
        fold=297,
    )
    scale, left = 0.5, 26.0
    tall, first = 92.0, 20.0
    foot = first + 5 * tall
    for quarter in range(5):
        x = left + scale * (20.0 + _CORN * quarter / 4)
        plate.leader(poly((x, 24), (x, foot + 8), shut=False))
        for y in (16, foot + 24):
            plate.text(x, y, ("0", "¼", "½", "¾", "1")[quarter], anchor="middle")
    for row, (length, roots, head, words) in enumerate(
        (
            (0.17, _FIRST[:2], "up to ¼", "in the first quarter"),
            (0.39, _FIRST, "¼ to ½", "up to the middle"),
            (0.64, _ROOTS[:4], "½ to ¾", "past the middle"),
            (0.88, _ROOTS[:5], "¾ to 1", "ready by length"),
            (1.22, _ROOTS, "over 1", "overshot: it is out"),
        )
    ):
        top = first + tall * row
        _peeled(plate, left, top, scale, length, roots)
        plate.text(222, top + 40, head, strong=True)
        plate.text(222, top + 58, words)
    plate.text(222, foot + 24, "parts of the corn")
    return plate


def stages() -> Plate:
    plate = Plate(
        "corn-growth",
        560,
        "A corn at four stages of growth",
        "Four corns, each with its root end at the left and its back upwards; the husk is lifted along the back, and "
        "the acrospire, the first leaf, is the white strip that lies there. At the cast: one white root tip, no "
        "acrospire to be seen. Young piece: two or three short roots, acrospire a third to a half of the corn. Even "
        "piece: five curling roots, acrospire a half to three quarters. Old piece: many long roots that wilt and "
        "hang at the tips, acrospire three quarters of the corn or more.",
        fold=236,
    )
    scale, left = 0.56, 37.0
    for row, (length, roots, head, words) in enumerate(
        (
            (0.0, (), "At the cast", ("white tip, the chit;", "acrospire not yet", "seen")),
            (0.42, _FIRST, "Young piece", ("two or three roots;", "acrospire ⅓ to ½")),
            (0.63, _ROOTS[:5], "Even piece", ("roots curl;", "acrospire ½ to ¾")),
            (0.86, _OLD, "Old piece", ("roots wilt at the", "tips; acrospire ¾", "and more")),
        )
    ):
        top = (6.0, 110.0, 238.0, 372.0)[row]
        _peeled(plate, left, top, scale, length, roots)
        plate.text(232, top + 34, head, strong=True)
        plate.lines_of_text(232, top + 52, *words)
    plate.scale(232, 478, scale * _CORN / _LONG_MM * 3, "3 mm")
    plate.lines_of_text(
        4, 534, "White strip: the acrospire, seen when the husk is", "lifted from the back of the corn."
    )
    return plate


def chain() -> Plate:
    plate = Plate(
        "chain",
        470,
        "The chain from barley to kiln",
        "Four steps downward with a corn drawn at each. Barley, dry and slim, 12 to 14 per cent water. Steep, about "
        "two days, to 43 to 47 per cent; the corn lies in water, has swollen, and shows a white chit. Germination, "
        "four to seven days at 42 to 46 per cent; rootlets curl and the acrospire lies along the back. Kiln, where "
        "hot air goes up through the green malt, dries it to 4 to 5 per cent, and this book ends.",
    )
    for y in (92, 212, 334):
        plate.arrow(f"M70 {y} L70 {y + 24}")
    _closed(plate, 22, 12, 0.3)
    plate.fill(box(6, 122, 128, 76), "water")
    plate.path("M6 122 L6 198 L134 198 L134 122", "shell", 4)
    plate.path("M6 130 L134 130")
    _closed(plate, 16, 134, 0.34)
    plate.path(moved(_CHIT, 16, 134, 0.34), "chit", 1.2, seen=False)
    _peeled(plate, 20, 256, 0.34, 0.63, _ROOTS[:5])
    plate.textured(box(6, 376, 128, 44), GRAIN)
    plate.path("M6 422 L134 422", "screen", 2.5)
    plate.path("M6 364 L6 454 L134 454 L134 364", "shell", 4)
    for x in (30, 70, 110):
        plate.arrow(f"M{x} 446 L{x} 368")
    for y, head, words in (
        (34, "Barley", ("12 to 14 % water, asleep",)),
        (146, "Steep", ("about 2 days, to 43 to 47 %;", "a white chit shows")),
        (270, "Germination", ("4 to 7 days at 42 to 46 %;", "rootlets grow")),
        (392, "Kiln", ("dried to 4 to 5 %: the hand-", "over, where this book ends")),
    ):
        plate.text(164, y, head, strong=True)
        plate.lines_of_text(164, y + 19, *words)
    return plate


def _closed(plate: Plate, x: float, y: float, scale: float) -> None:
    """A corn from its side, its husk whole."""
    for d, style, wide in (
        (HUSK, "big-corn", 2),
        ("M40 70 C90 46 200 44 280 72", "rib", 1),
        ("M34 84 C110 76 210 76 288 82", "rib", 1),
        ("M44 104 C100 122 210 122 282 92", "rib", 1),
        ("M84 60 C130 48 190 50 244 64", "light", 2),
    ):
        plate.path(moved(d, x, y, scale), style, wide, seen=style == "big-corn")


_OLD = (
    "M24 92 C-2 92 -18 108 -40 104 C-58 100 -52 122 -48 138",
    "M25 95 C4 108 -14 126 -34 136 C-52 146 -46 162 -40 172",
    "M27 97 C18 116 12 140 -6 154 C-18 164 -14 178 -8 188",
    "M23 89 C0 82 -18 84 -36 66 C-52 54 -56 74 -54 90",
    "M30 99 C36 122 54 140 58 164 C60 178 68 184 74 192",
    "M22 87 C8 72 -8 70 -22 50 C-32 40 -42 50 -44 62",
    "M29 98 C28 120 24 146 22 168 C20 180 24 186 28 194",
)
