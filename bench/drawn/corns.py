"""The corn cut, split and rubbed, and corns in dishes."""

from __future__ import annotations

from bench.drawn.kit import CELLS, Plate, box, poly

_OUTLINE = "M20 96 C34 52 80 34 140 35 C212 37 272 62 300 94 C268 124 212 140 150 140 C90 140 40 130 20 96 Z"
_STORE = (
    "M100 43 C116 41 130 41 140 41 C208 43 264 66 290 94 C262 118 208 134 150 134 C100 134 56 127 33 111 C62 "
    "102 90 76 100 43 Z"
)
_GERM = "M22 95 C35 57 66 42 93 40 C86 72 58 98 25 105 Z"
_SHIELD = "M93 40 C86 72 58 98 25 105 L33 111 C62 102 90 76 100 43 Z"
_SHOOT = "M50 76 C56 65 70 55 86 51 C80 63 66 74 56 80 Z"
_ROOT = "M50 78 C42 78 32 84 27 94 C36 96 48 90 55 82 Z"
MM = 31.0
"""Units a millimetre: a corn of 9 mm (Tavakoli 2009) is 280 long here."""


def inside() -> Plate:
    plate = Plate(
        "corn-inside",
        660,
        "A barley corn cut lengthwise and across, and its starch cells close by",
        "A lengthwise section, root end at the left, back upwards, furrow side downwards. Outside lies the husk, "
        "then the "
        "fruit and seed coat. In the left upper quarter lies the germ, with the shoot pointing along the back and "
        "the root "
        "pointing to the root end. A plate, the scutellum, parts the germ from the rest. The rest is starch "
        "cells, each in "
        "its wall, with a rim of small aleurone cells around them. Below it the same corn cut across its middle: "
        "nearly "
        "round, with the furrow folded deep into it from below, and the two leaves of the husk overlapping at the "
        "sides. "
        "Beneath, some cells are enlarged: thick walls, large round and many small starch grains, and protein "
        "between them.",
        fold=309,
    )
    plate.text(4, 18, "Cut lengthwise", strong=True)
    plate.path(_OUTLINE, "husk", 9)
    plate.path(_OUTLINE, "coat", 1.6)
    plate.fill(_STORE, "endosperm")
    plate.textured(_STORE, CELLS)
    plate.path(_STORE, "aleurone", 5)
    plate.path(_GERM, "germ", 1.2)
    plate.path(_SHIELD, "scutellum", 1)
    plate.path(_SHOOT, "chit", 1.2)
    plate.path(_ROOT, "chit", 1.2)
    for number, x, y, to in (
        (1, 250, 30, (238, 48)),
        (2, 322, 122, (288, 104)),
        (3, 214, 158, (206, 130)),
        (4, 190, 90, None),
        (5, 74, 158, (64, 98)),
        (6, 146, 20, (74, 58)),
        (7, 12, 130, (34, 92)),
        (8, 144, 158, (144, 142)),
    ):
        if to:
            plate.leader(poly((x, y), to, shut=False))
        plate.number(x, y, number)
    plate.scale(300, 166, MM, "1 mm")
    # Across the middle, at the same scale.
    plate.text(4, 200, "Cut across", strong=True)
    across = (
        "M66 216 C96 216 118 234 117 258 C116 282 92 298 73 296 C70 292 68 282 66 264 C64 282 62 292 59 296 "
        "C40 298 16 282 15 258 C14 234 36 216 66 216 Z"
    )
    store = (
        "M66 225 C90 225 108 240 108 258 C107 275 92 287 78 286 C75 280 72 268 69 252 C68 248 64 248 63 252 "
        "C60 268 57 280 54 286 "
        "C40 287 25 275 24 258 C24 240 42 225 66 225 Z"
    )
    plate.path(across, "husk", 9)
    plate.path(across, "coat", 1.6)
    plate.fill(store, "endosperm")
    plate.textured(store, CELLS)
    plate.path(store, "aleurone", 5)
    plate.path("M66 252 L66 292", "furrow-line", 2.4)
    plate.circle(66, 251, 3.4, "corn")
    plate.path("M10 244 L20 250 M122 244 L112 250", "husk-edge", 1.6)
    plate.leader("M84 238 L150 224")
    plate.leader("M70 252 L150 246")
    plate.leader("M122 262 L150 270")
    plate.leader("M68 294 L150 292")
    plate.lines_of_text(154, 228, "starch cells")
    plate.text(154, 250, "the strand that fed it")
    plate.text(154, 273, "aleurone, all round")
    plate.text(154, 296, "furrow: folded deep in")
    for row, words in enumerate(
        (
            "1 husk: two leaves, their edges overlap",
            "2 fruit and seed coat, grown into one",
            "3 aleurone: two or three living cells deep",
            "4 starch cells, dead, each in its wall",
            "5 scutellum: the germ’s plate",
            "6 shoot: the acrospire to be",
            "7 root: the chit to be",
            "8 furrow side",
        )
    ):
        plate.text(4, 328 + 20 * row, words)
    plate.text(4, 500, "Starch cells, some hundred times as large", strong=True)
    plate.fill(box(4, 510, 372, 84), "matrix")
    for cell, (left, right) in enumerate(((14, 116), (132, 244), (260, 366))):
        for n, (dx, dy, r) in enumerate(
            ((22, 26, 12), (48, 20, 9), (74, 32, 13), (34, 54, 13), (62, 62, 10), (86, 58, 9), (14, 50, 6))
        ):
            if left + dx + r < right:
                plate.circle(left + dx + (n + cell) % 3, 510 + dy - (n * cell) % 4, r, "starch")
        for n in range(14):
            plate.circle(
                left + 6 + (n * 29 + cell * 11) % (right - left - 12), 518 + (n * 41 + cell * 17) % 68, 2, "starch"
            )
    plate.path("M4 510 L376 510 L376 594 L4 594 Z M124 510 Q118 552 126 594 M252 510 Q258 550 250 594", "wall", 4)
    plate.lines_of_text(
        4, 614, "Thick lines: walls, mostly glucan. Round: starch,", "large and small grains. Ground: protein."
    )
    return plate


def split_and_rub() -> Plate:
    plate = Plate(
        "split-and-rub",
        460,
        "Splitting a corn and rubbing its inside",
        "Above: a corn on its side with a blade along the line where it is split, and the split corn with the "
        "acrospire "
        "along the back, the flour body in the middle and the germ at the root end. Below, a finger and a thumb "
        "with what "
        "is inside between them, in three states. Hard: a pellet that will not crush. Doughy: it smears like "
        "putty. Dry "
        "flour: a powder without grit that falls and marks a board like chalk.",
        fold=208,
    )
    for d in ("M22 62 Q10 56 4 60", "M22 64 Q10 68 6 78", "M22 64 Q16 76 18 88"):
        plate.path(d, "root", 2)
    corn = "M20 60 C32 28 64 18 94 20 C126 22 146 40 156 56 C142 80 116 92 84 92 C52 92 28 82 20 60 Z"
    plate.path(corn, "big-corn", 2)
    plate.path("M34 46 Q60 28 96 26", "light", 2, seen=False)
    plate.path("M150 62 L84 62 Q60 62 26 60", "limit", 2)
    plate.path("M200 74 L150 66 L84 58 L88 70 L150 80 L198 84 Z", "metal", 1.5)
    plate.path("M200 78 L236 84", "tool-broad", 12)
    plate.text(212, 26, "1 Lay it on its side,")
    plate.text(212, 44, "split along the furrow.")
    # The split corn.
    plate.path(
        "M20 150 C32 118 64 108 94 110 C126 112 146 130 156 146 C142 170 116 182 84 182 C52 182 28 172 20 150 Z",
        "husk",
        9,
    )
    plate.path(
        "M20 150 C32 118 64 108 94 110 C126 112 146 130 156 146 C142 170 116 182 84 182 C52 182 28 172 20 150 Z",
        "coat",
        1.6,
    )
    plate.path("M58 126 Q104 118 148 146 Q118 174 84 176 Q56 174 40 164 Q54 150 58 126 Z", "opened", 1.4)
    plate.path("M24 150 Q34 124 56 120 Q52 148 36 160 Z", "germ", 1.2)
    plate.path("M44 132 Q74 104 124 122 Q78 116 48 140 Z", "chit", 1.2)
    plate.leader("M118 119 L196 112")
    plate.leader("M112 150 L196 150")
    plate.leader("M34 152 L60 196 L196 188")
    plate.text(200, 117, "acrospire")
    plate.text(200, 147, "flour, or what is")
    plate.text(200, 164, "to be flour")
    plate.text(200, 193, "germ: leave it out")
    plate.text(4, 232, "2 Rub it between finger and thumb.", strong=True)
    for left, head, words in (
        (0, "hard", ("a pellet that", "will not crush")),
        (126, "doughy", ("smears like", "putty")),
        (252, "dry flour", ("no grit; marks", "like chalk")),
    ):
        _pinch(plate, left + 28, 312, head)
        plate.text(left + 4, 398, head, strong=True)
        plate.lines_of_text(left + 4, 416, *words)
    return plate


def _pinch(plate: Plate, x: float, y: float, state: str) -> None:
    """A finger above and a thumb below, with what is rubbed between their tips."""
    gap = {"hard": 9.0, "doughy": 5.0, "dry flour": 4.0}[state]
    finger = poly((x + 78, y - 44), (x + 46, y - 36), (x + 8, y - gap - 10), shut=False)
    thumb = poly((x + 80, y + 24), (x + 48, y + 25), (x + 10, y + gap + 11), shut=False)
    for d in (thumb, finger):
        plate.path(d, "limb-edge", 23, stroke_width="23")
        plate.path(d, "limb-glove", 20, seen=False, stroke_width="20")
    plate.path(f"M{x - 2} {y - gap - 13} Q{x + 6} {y - gap - 20} {x + 14} {y - gap - 18}", "line", 1.5)
    plate.path(f"M{x} {y + gap + 16} Q{x + 8} {y + gap + 22} {x + 16} {y + gap + 19}", "line", 1.5)
    if state == "hard":
        plate.path(
            poly((x - 8, y - 4), (x + 2, y - 9), (x + 12, y - 5), (x + 11, y + 6), (x, y + 9), (x - 8, y + 4)),
            "big-corn",
            2,
        )
    elif state == "doughy":
        plate.path(
            f"M{x - 27} {y + 4} Q{x - 16} {y - 9} {x + 2} {y - 7} L{x + 20} {y - 5} L{x + 20} {y + 6} "
            f"Q{x - 2} {y + 10} {x - 27} {y + 4} Z",
            "smear",
            1.6,
        )
    else:
        plate.path(
            f"M{x - 8} {y} Q{x + 6} {y - 5} {x + 20} {y - 3} L{x + 20} {y + 3} Q{x + 4} {y + 5} {x - 8} {y} Z",
            "smear",
            1.6,
        )
        for n in range(26):
            plate.circle(x - 20 + (n * n * 7 + n * 5) % 24, y + 8 + (n * 23 + n * n) % 58, 1.5, "dust")
        plate.path(f"M{x - 26} {y + 70} L{x + 16} {y + 70}", "line thick", 3)


def dishes() -> Plate:
    plate = Plate(
        "germination-dishes",
        452,
        "A germination test in two dishes of 4 ml and 8 ml, and what is counted",
        "Two dishes from above, each with one hundred corns in ten rows of ten, furrow down, on two filter "
        "papers. With 4 "
        "ml the papers are wet and no water stands: it shows energy. With 8 ml a film of water stands on them: it "
        "shows "
        "water sensitivity. Below, a dish after a count: corns that have grown were counted, written down and "
        "taken out; "
        "what is left stays under the lid.",
        fold=240,
    )
    for x, style, head, words in (
        (92, "water", "4 ml", ("papers wet, no pool", "shows energy")),
        (286, "pool", "8 ml", ("water stands on them", "shows water sensitivity")),
    ):
        _dish(plate, x, 88, 84, style, range(10))
        if style == "pool":
            for px, py in ((226, 62), (232, 116), (338, 58), (334, 120)):
                plate.path(
                    f"M{px} {py} Q{px + 6} {py - 6} {px + 12} {py} Q{px + 18} {py + 6} {px + 24} {py}", "wave", 1.6
                )
        plate.text(x, 194, head, strong=True, anchor="middle")
        for row, said in enumerate(words):
            plate.text(x, 212 + 17 * row, said, anchor="middle")
    plate.lines_of_text(
        4, 262, "In each: two filter papers, 100 corns, ten by", "ten, furrow down. Lid on, in the dark, at 20 °C."
    )
    _dish(plate, 70, 354, 56, "water", range(4, 7))
    plate.arrow("M136 354 L176 354")
    for row in range(3):
        for column in range(8):
            x, y = 196 + 22 * column, 326 + 22 * row
            plate.path(f"M{x - 5} {y} Q{x} {y - 5} {x + 5} {y} Q{x} {y + 5} {x - 5} {y} Z", "corn", 1)
            plate.path(f"M{x - 5} {y} Q{x - 10} {y} {x - 11} {y + 5}", "root", 2)
    plate.text(4, 432, "left: lid on again")
    plate.lines_of_text(190, 412, "grown: count, write,", "take them out")
    return plate


def _dish(plate: Plate, x: float, y: float, r: float, style: str, rows: range) -> None:
    """A dish from above; each row is one line of dashes, a dash a corn."""
    plate.circle(x, y, r, "dish")
    plate.circle(x, y, r - 5, style)
    step = r * 0.122
    for row in rows:
        at = y + (row - 4.5) * step
        plate.path(
            poly((x - 4.5 * step, at), (x + 4.5 * step + 0.2, at), shut=False),
            "corn-row",
            3,
            seen=False,
            stroke_width=f"{step * 0.4:.1f}",
            stroke_dasharray=f"{step * 0.25:.2f} {step * 0.75:.2f}",
        )
