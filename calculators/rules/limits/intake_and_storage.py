"""Limits of intake and of the store."""

from ..limit import PUBLISHED, Limit, Signs, limit
from .germination_test import CAPACITY, ENERGY

_PAGE = "intake-and-storage"

GATE_MOISTURE = limit(
    Limit(
        "gate-moisture", _PAGE, "Moisture at the gate", "%",
        accept_high=14.5, stop_high=14.5, act="Dry it, the wettest load first.",
        standing=PUBLISHED, sources=("magb-intake", "bmbri-drying", "mebak-moisture"), lowest=8, highest=20,
    )
)  # fmt: skip
STORE_MOISTURE = limit(
    Limit(
        "store-moisture", _PAGE, "Moisture in store", "%",
        accept_high=13, stop_high=14.5, watch="for weeks only", act="Dry it.",
        standing=PUBLISHED, sources=("hgca-topic-60", "mebak-moisture"), lowest=8, highest=16,
    )
)  # fmt: skip
GATE_TEMP = limit(
    Limit(
        "gate-temp", _PAGE, "Grain at the gate", "C",
        accept_high=20, stop_high=30, watch="cool it", stop="or warming",
        act="Do not tip. Ask, and test the capacity.", sources=("oxford-dormancy",), lowest=5, highest=40,
    )
)  # fmt: skip
STORE_TEMP = limit(
    Limit(
        "store-temp", _PAGE, "Grain in store", "C",
        accept_low=10, accept_high=15, stop_high=20, stop="or a warm spot",
        act="Blow night air. A warm spot: turn the lot over to an empty bin, from outside.",
        standing=PUBLISHED, sources=("hgca-temperature", "csl-cooling"), lowest=0, highest=30,
    )
)  # fmt: skip
SCREENINGS = limit(
    Limit(
        "screenings", _PAGE, "Screenings", "%",
        accept_high=5, stop_high=7, act="Send it back, or ask what the order says.",
        standing=PUBLISHED, sources=("cfr-810-205",), lowest=0, highest=20,
    )
)  # fmt: skip
SPLIT = limit(
    Limit(
        "split-skinned", _PAGE, "Split, skinned, broken", "%",
        accept_high=4, stop_high=6, act="Send it back, or ask what the order says.",
        standing=PUBLISHED, sources=("cfr-810-205",), lowest=0, highest=20,
    )
)  # fmt: skip
ADMIXTURE = limit(
    Limit(
        "admixture", _PAGE, "Admixture", "%",
        accept_high=2, stop_high=2, act="Send it back, or ask what the order says.",
        standing=PUBLISHED, sources=("cfr-810-205",), lowest=0, highest=10,
    )
)  # fmt: skip
NITROGEN = limit(
    Limit(
        "nitrogen", _PAGE, "Nitrogen in dry matter", "%",
        accept_high=1.75, stop_high=1.75, accept="as ordered",
        act="Ask what the order says. For distilling at most 1.65 % is published.",
        standing=PUBLISHED, sources=("magb-nitrogen",), lowest=1, highest=3,
    )
)  # fmt: skip
ERGOT = limit(
    Limit(
        "ergot", _PAGE, "Ergot", "g/kg",
        accept_high=0, stop_high=0.2, watch="ask the contract", stop="of grain",
        act="Send it back. Its poison is not taken out.",
        standing=PUBLISHED, sources=("eu-2023-915", "ahdb-ergot"), safety=True,
    )
)  # fmt: skip
BEGUN = limit(
    Limit(
        "begun-to-grow", _PAGE, "Begun to grow", "%",
        accept_high=0, stop_high=0, accept="seen", stop="seen", act="Send it back.",
        standing=PUBLISHED, sources=("mebak-pre-germination",), lowest=0, highest=5,
    )
)  # fmt: skip
SMELL = Signs(
    "gate-smell", _PAGE, "Smell",
    accept=("clean", "straw"), watch=("dusty",), stop=("musty", "sour", "foreign"),
    act="Musty or sour: send it back. Foreign: stop, leave, upwind, call.",
    standing=PUBLISHED, sources=("cfr-810-206",),
)  # fmt: skip
INSECTS = Signs(
    "gate-insects", _PAGE, "Insects or mites",
    accept=("none",), stop=("found",), stop_more="even one",
    act="Do not tip. Send it back, or quarantine by the site’s plan. Only licensed people fumigate.",
    standing=PUBLISHED, sources=("cfr-810-205",),
)  # fmt: skip
T2_HT2 = limit(
    Limit(
        "t2-ht2", _PAGE, "T-2 with HT-2 (laboratory)", "µg/kg",
        accept_high=200, stop_high=200, act="Keep it apart. The law where you are says what may be done with it.",
        standing=PUBLISHED, sources=("eu-2024-1038",), safety=True,
    )
)  # fmt: skip
DON = limit(
    Limit(
        "deoxynivalenol", _PAGE, "Deoxynivalenol (laboratory)", "µg/kg",
        accept_high=1000, stop_high=1000, act="Keep it apart. The law where you are says what may be done with it.",
        standing=PUBLISHED, sources=("eu-2024-1022",), safety=True,
    )
)  # fmt: skip
FUMIGANT = Signs(
    "fumigant", _PAGE, "Fumigant",
    accept=("written-no", "certificate"), accept_as="a written “no”, or the certificate",
    stop=("nobody-knows", "no-certificate"),
    act="Do not tip. Park it in the open, away from people, and ask for the paper. A competent person meters it.",
    sources=("grdc-phosphine",),
)  # fmt: skip

ROWS: tuple[Limit | Signs, ...] = (
    GATE_MOISTURE,
    STORE_MOISTURE,
    ENERGY,
    CAPACITY,
    GATE_TEMP,
    STORE_TEMP,
    SCREENINGS,
    SPLIT,
    ADMIXTURE,
    NITROGEN,
    ERGOT,
    BEGUN,
    SMELL,
    INSECTS,
    T2_HT2,
    DON,
    FUMIGANT,
)
