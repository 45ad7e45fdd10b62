"""The corn from outside, and how it opens."""

from __future__ import annotations

from bench.drawn.corns import MM
from bench.drawn.kit import Plate
from calculators.words.corn_drawn import corn

_SKIN = "M30 {0} C36 {1} 84 {2} 150 {2} C214 {2} 262 {3} 310 {0} C262 {4} 214 {5} 150 {5} C84 {5} 36 {6} 30 {0} Z"


def _skin(middle: float) -> str:
    """A corn 9.0 mm long and 3.3 mm wide."""
    half = 1.65 * MM
    return _SKIN.format(middle, middle - half * 0.72, middle - half, middle - half * 0.5, middle + half * 0.5,
                        middle + half, middle + half * 0.72)  # fmt: skip


def outside() -> Plate:
    plate = Plate(
        "corn-outside",
        400,
        "A barley corn from outside, from its back and from its furrow side",
        "Two views of one corn, each about two and a half times as long as wide, root end at the left, beard end "
        "at the "
        "right. From the back: the smooth husk with five fine ribs that run to the beard end, and at the root end "
        "the oval "
        "outline of the germ beneath it. From the other side: the edges of the husk overlap, the furrow runs "
        "along the "
        "middle, and a small bristle lies in it at the root end.",
    )
    plate.text(4, 18, "From the back", strong=True)
    plate.path(_skin(92), "big-corn", 2)
    plate.path("M310 92 L364 84", "awn-line", 1.5)
    for low, high in ((-30, -44), (-15, -22), (0, 0), (15, 22), (30, 44)):
        plate.path(
            f"M{42 + abs(low) * 0.6:.0f} {92 + low} C100 {92 + high} 220 {92 + high} 306 {92 + high * 0.05:.1f}",
            "rib",
            1,
        )
    plate.path("M38 92 C44 64 84 62 108 92 C84 122 44 120 38 92 Z", "germ under", 1.2)
    plate.path("M64 62 Q120 46 200 52", "light", 2, seen=False)
    plate.leader("M84 108 L108 158")
    plate.text(68, 174, "germ, beneath")
    plate.leader("M210 130 L230 158")
    plate.text(196, 174, "ribs of the husk")
    plate.text(4, 38, "root end")
    plate.text(306, 62, "beard end")
    plate.text(4, 214, "From the furrow side", strong=True)
    plate.path(_skin(282), "big-corn", 2)
    plate.path("M310 282 L364 274", "awn-line", 1.5)
    plate.path("M50 250 C100 238 220 242 302 276", "husk-edge", 1.6)
    plate.path("M50 314 C100 326 220 322 302 288", "husk-edge", 1.6)
    plate.path("M44 282 C110 274 230 292 302 282 C230 302 110 296 44 282 Z", "furrow", 1.6)
    plate.path("M36 282 Q58 268 84 276", "line", 1.5)
    plate.path("M64 254 Q120 238 200 244", "light", 2, seen=False)
    plate.leader("M66 272 L52 348")
    plate.text(26, 364, "bristle")
    plate.leader("M170 292 L170 348")
    plate.text(148, 364, "furrow")
    plate.leader("M240 312 L258 348")
    plate.text(232, 364, "husk edge")
    plate.scale(8, 388, 3 * MM, "3 mm")
    return plate


def opening() -> Plate:
    plate = Plate(
        "corn-opening",
        662,
        "How a corn opens from the root end, at three times",
        "Three lengthwise sections of a corn, root end left and back upwards. At the cast a white root tip stands "
        "out and "
        "nothing is open yet. On about the third day three roots curl, the acrospire reaches half way along the "
        "back, and "
        "the part next to the scutellum is open, further along the back than along the furrow. When it is ready "
        "five roots curl, drawn short here, the acrospire is three quarters of the corn and more, and only the "
        "far tip is "
        "still closed.",
        fold=424,
    )
    for row, (head, words, acrospire, opened) in enumerate(
        (
            ("At the cast", "root tip out; nothing is open yet", 0.0, 0.0),
            ("About the third day", "acrospire ½; open behind the plate", 0.5, 0.45),
            ("Ready", "acrospire ¾ and more; the far tip last", 0.8, 0.88),
        )
    ):
        top = 212 * row
        plate.text(4, top + 18, head, strong=True)
        for shape in corn(acrospire=acrospire, opened=opened, x=46, y=top + 22, scale=1.0):
            plate.path(shape.path, shape.style, seen=False)
        plate.text(4, top + 204, words)
    plate.scale(300, 644, MM, "1 mm")
    return plate
