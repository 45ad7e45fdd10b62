"""A laboratory's figures put on one basis, held against what was ordered, and two results of one sample compared."""

from __future__ import annotations

from collections.abc import Mapping

from ..asking.declare import Answer, AskAgain, Either, Found, Note, Option, Outcome, Sheet
from ..asking.figures import carried, fixed, plain_number
from ..models.bounds import Bounds
from ..models.weights.analysed import (
    EXTRACT_APART,
    NITROGEN_APART,
    PROTEIN_OF_NITROGEN,
    as_is_of,
    on_dry_matter,
    single_doubt,
)
from ..rules.analysed import Ordered, as_ordered, near_an_end, worst_word
from ..words import within
from ..words.questions.analysed import EXTRACT, NITROGEN, extract_basis, extract_percent, nitrogen_percent
from ..words.questions.shared import malt_moisture, number

_MOISTURE_DOUBT = 0.2
_OF_NITROGEN = single_doubt(apart=NITROGEN_APART["two"])
_OF_EXTRACT = single_doubt(apart=EXTRACT_APART["two"])

protein_percent = number(
    "protein_percent", "Or protein", "%", Bounds(5.0, 22.0), "On dry matter: 6.25 times the nitrogen."
)
extract_from = number("extract_from", "Ordered: extract, dry, at least", "%", EXTRACT, example="80")._replace(
    optional=True, in_view=True
)
nitrogen_from = number("nitrogen_from", "Ordered: nitrogen from", "%", NITROGEN, example="1.5")._replace(
    optional=True, in_view=True
)
nitrogen_most = number("nitrogen_most", "Ordered: nitrogen to", "%", NITROGEN, example="1.7")._replace(
    optional=True, in_view=True
)
moisture_most = number("moisture_most", "Ordered: moisture at most", "%", Bounds(0.5, 15.0), example="5")._replace(
    optional=True, in_view=True
)
other_extract = number(
    "other_extract", "Another laboratory’s extract, dry", "%", EXTRACT, "Of the same sample."
)._replace(optional=True)
other_nitrogen = number(
    "other_nitrogen", "Another laboratory’s nitrogen", "%", NITROGEN, "Of the same sample."
)._replace(optional=True)


def work(
    *,
    extract_percent: float,
    extract_basis: str,
    malt_moisture: float,
    nitrogen_percent: float | None,
    protein_percent: float | None,
    extract_from: float | None,
    nitrogen_from: float | None,
    nitrogen_most: float | None,
    moisture_most: float | None,
    other_extract: float | None,
    other_nitrogen: float | None,
) -> Outcome:
    """Put extract and nitrogen on the dry matter; hold them against the order and against another result."""
    if nitrogen_from is not None and nitrogen_most is not None and nitrogen_from > nitrogen_most:
        raise AskAgain("nitrogen_most", f"type {plain_number(nitrogen_from)} % or more, or change where it begins.")
    found, dry = _extract(extract_percent, extract_basis, malt_moisture)
    nitrogen = nitrogen_percent
    if protein_percent is not None:
        nitrogen = protein_percent / PROTEIN_OF_NITROGEN
        working = f"{plain_number(protein_percent)} / {PROTEIN_OF_NITROGEN} = {fixed(nitrogen, 2)} %"
        found.append(Found("nitrogen", nitrogen, working, nitrogen - _OF_NITROGEN, nitrogen + _OF_NITROGEN))
    elif nitrogen is not None:
        found.append(
            Found(
                "nitrogen",
                nitrogen,
                "as on the sheet",
                nitrogen - _OF_NITROGEN,
                nitrogen + _OF_NITROGEN,
                worked="given",
            )
        )
        protein = PROTEIN_OF_NITROGEN * nitrogen
        found.append(
            Found("protein", protein, f"{PROTEIN_OF_NITROGEN} × {plain_number(nitrogen)} = {fixed(protein, 1)} %")
        )
    held = {
        "Extract, dry": Ordered(dry, _OF_EXTRACT, extract_from),
        "Moisture": Ordered(malt_moisture, _MOISTURE_DOUBT, None, moisture_most),
    }
    if nitrogen is not None:
        held["Nitrogen"] = Ordered(nitrogen, _OF_NITROGEN, nitrogen_from, nitrogen_most)
    elif nitrogen_from is not None or nitrogen_most is not None:
        raise AskAgain("nitrogen_percent", "type the sheet’s nitrogen or protein, or blank what was ordered of it.")
    words = {name: as_ordered(one) for name, one in held.items() if one.low is not None or one.high is not None}
    apart = _apart(dry, other_extract, nitrogen, other_nitrogen)
    disputed = any(one.id == "same" and one.value == "differ" for one in apart)
    word = worst_word(list(words.values()))
    if word is not None:
        found.insert(0, Found("verdict", "disputed", next=_SETTLE) if disputed else Found("verdict", word))
    notes = _notes(words, [name for name, one in held.items() if near_an_end(one)], disputed)
    return Outcome((*found, *apart), notes=tuple(notes))


def _extract(extract: float, basis: str, moisture: float) -> tuple[list[Found], float]:
    if basis == "dry":
        as_is = as_is_of(dry=extract, moisture=moisture)
        working = f"{plain_number(extract)} × (100 − {plain_number(moisture)}) / 100 = {fixed(as_is, 1)} %"
        doubt = extract - _OF_EXTRACT, extract + _OF_EXTRACT
        return [
            Found("extract_dry", extract, "as on the sheet", *doubt, worked="given"),
            Found("extract_as_is", as_is, working),
        ], extract
    dry = on_dry_matter(as_is=extract, moisture=moisture)
    if dry > EXTRACT.high:
        raise AskAgain(
            "extract_percent",
            f"on dry matter that would be {fixed(dry, 1)} %. Is it given on dry matter already, or is the moisture "
            "another malt’s?",
        )
    working = f"100 × {plain_number(extract)} / (100 − {plain_number(moisture)}) = {fixed(dry, 1)} %"
    return [
        Found("extract_dry", dry, working, dry - _OF_EXTRACT, dry + _OF_EXTRACT),
        Found("extract_as_is", extract, "as on the sheet", worked="given"),
    ], dry


def _apart(dry: float, other: float | None, nitrogen: float | None, second: float | None) -> list[Found]:
    """Two results of one sample: how far apart, and whether that is more than two laboratories part by."""
    found = []
    words = []
    if other is not None:
        gap = abs(dry - other)
        working = f"{carried(max(dry, other))} − {carried(min(dry, other))} = {fixed(gap, 1)} points"
        found.append(Found("extract_apart", gap, working))
        words.append(gap > EXTRACT_APART["two"])
    if second is not None:
        if nitrogen is None:
            raise AskAgain("nitrogen_percent", "type this sheet’s nitrogen or protein too, or blank the other one.")
        gap = abs(nitrogen - second)
        working = f"{carried(max(nitrogen, second))} − {carried(min(nitrogen, second))} = {fixed(gap, 2)} points"
        found.append(Found("nitrogen_apart", gap, working))
        words.append(gap > NITROGEN_APART["two"])
    if words:
        found.insert(0, Found("same", "differ" if any(words) else "same"))
    return found


def _notes(words: Mapping[str, str], near: list[str], disputed: bool) -> list[Note]:
    told = {"off": "past what was ordered", "open": "past an end of the order, by no more than one result may err"}
    first = []
    if disputed:
        first = [
            Note(
                "notice",
                "Two results of one sample lie farther apart than two laboratories do. One of them is wrong, or it is "
                "not one sample: nothing is accepted, sent off or refused by either before that is settled."
                + (" What follows is by this sheet alone." if words else ""),
            )
        ]
    notes = first + [
        Note("notice" if word == "off" else "remark", f"{name}: {told[word]}.")
        for name, word in words.items()
        if word in told
    ]
    notes += [
        Note("remark", f"{name}: as ordered, and so near an end that a second result may fall past it.")
        for name in near
    ]
    if any(word in told for word in words.values()):
        notes.append(
            Note(
                "remark", "Tell the shift lead before anybody rings the customer. Whose sample was it, and from where?"
            )
        )
    if not words:
        notes.append(Note("remark", "Type what was ordered, and it is held against it."))
    notes.append(
        Note(
            "remark",
            "Write the sheet to its own batch, also one that has long left: [[page:records/day-book|day-book]].",
        )
    )
    return notes


_SETTLE = (
    "Ask both laboratories for method, basis and sample, and for a third result of the sealed sample if they stand by "
    "theirs."
)
_EXTRACT_WITHIN = within.between(0.0, 100.0, "It is a part of a whole.", "extract_percent", "malt_moisture")
_POINTS = within.between(0.0, 50.0, "No two malts lie farther apart.", "other_extract", "other_nitrogen")

SHEET = Sheet(
    id="analysis-sheet",
    title="Analysis sheet",
    purpose="Puts a laboratory’s figures on one basis, and holds them against the order with the doubt of one result.",
    questions=(
        extract_percent._replace(example="80.9"),
        extract_basis._replace(default="", example="as-is"),
        malt_moisture._replace(hint="As on the sheet.", example="4.4"),
        nitrogen_percent,
        protein_percent,
        extract_from,
        nitrogen_from,
        nitrogen_most,
        moisture_most,
        other_extract,
        other_nitrogen,
    ),
    either=(Either((("nitrogen_percent",), ("protein_percent",)), required=False),),
    answers=(
        Answer(
            "verdict",
            "Against the order",
            kind="verdict",
            lead=True,
            words=(
                Option("ordered", "As ordered, by all that was typed."),
                Option("open", "Open: a figure lies past an end of the order, by no more than one result may err."),
                Option("off", "Off: a figure lies past what was ordered by more than one result may err."),
                Option("disputed", "Disputed: the two results of the sample do not agree. Settle that first."),
            ),
            rests_on="each figure with the doubt of one result, against both ends of the order; before that, whether "
            "two results of the sample agree",
            trust="It knows the figures typed, not the sample. A handful from the first sack is a sheet about that "
            "sack.",
            next="How to read it: [[page:learning/reading-an-analysis-sheet|reading an analysis sheet]].",
        ),
        Answer(
            "extract_dry",
            "Extract on dry matter",
            "%",
            1,
            lead=True,
            rests_on="the dry matter is what is not water",
            trust="No figure of how far two laboratories part was read; two points are our judgement.",
            within=_EXTRACT_WITHIN,
        ),
        Answer(
            "extract_as_is", "Extract as is", "%", 1, rests_on="with the malt’s water in it", within=_EXTRACT_WITHIN
        ),
        Answer(
            "nitrogen",
            "Total nitrogen on dry matter",
            "%",
            2,
            lead=True,
            rests_on="protein over 6.25, or as given",
            trust="Two laboratories stay within 0.116 points in 95 of 100 (EBC trial, abstract); one result is open by "
            "0.08 either way.",
            within=within.between(0.0, 10.0, "No malt has more.", "nitrogen_percent", "protein_percent"),
        ),
        Answer(
            "protein",
            "Protein on dry matter",
            "%",
            1,
            rests_on="6.25 times the nitrogen",
            within=within.between(0.0, 60.0, "No malt has more.", "nitrogen_percent"),
        ),
        Answer(
            "same",
            "The two results of one sample",
            kind="verdict",
            words=(
                Option("same", "No farther apart than two laboratories are: the same malt, by all that is known."),
                Option("differ", "Farther apart than two laboratories are: ask both for method, basis and sample."),
            ),
            rests_on="differences against what two laboratories stay under in 95 of 100",
        ),
        Answer("extract_apart", "Extracts apart by", "points", 1, rests_on="one less the other, dry", within=_POINTS),
        Answer("nitrogen_apart", "Nitrogens apart by", "points", 2, rests_on="one less the other", within=_POINTS),
    ),
    work=work,
    sources=("ebc-dumas", "ebc-nir-1996", "malt-qa-descriptions"),
    story="A sheet of the example maltings, with the figures of its order: invented.",
)
