"""Phrases that no page, sheet, card or exercise may use: they allow an entry or call a place safe.

Whole phrases are matched, not words, so that “sets no safe limit” and “keep clear” stand.
"""

from __future__ import annotations

import html
import re
from functools import lru_cache

_PLACE = (
    r"(?:air|atmosphere|gas|vessel|drum|steep|pit|bin|silo|duct|channel|space|place|room|area|tank|kiln|cellar|"
    r"hatch|box|reading|meter|concentration|level|exposure|it|this|that|there|everything)"
)
_BE = r"(?:is|are|was|were|be|been|being|seems?|looks?|reads?|tests?|becomes?|gets?|stays?|remains?|now)"
_ADVERB = r"(?:(?:now|all|quite|again|then|still|perfectly|completely|likely|probably|usually|considered)\s+)?"
_WELL = r"(?:clear|safe|acceptable|harmless|breathable|gas[- ]free|risk[- ]free|within (?:the )?limits?)"
_IN = (
    r"(?:enter(?:ed)?|go(?:ne)? (?:in|inside|into|down|back in)|climb(?:ed)? (?:in|down)|"
    r"step(?:ped)? (?:in|inside|into)|lean(?:ed)? in|be inside|work inside|stay inside)"
)
_MAY = r"(?:may|can|might|could|allowed to|permitted to|free to|cleared to|fine to|ok to|safely)"

PATTERNS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"\b{_PLACE}\s+{_BE}\s+{_ADVERB}{_WELL}\b",
        rf"(?<!who )\b{_MAY}\s+(?:now\s+|be\s+|then\s+|safely\s+)*{_IN}\b",
        r"\bsafe\s+(?:to|for|enough|air|atmosphere|place|level|limit|concentration)\b",
        r"\bsafe\s+(?:dose|time|entry|exposure|reading|inside)\b",
        r"\bsafe(?:ly)?\s+(?:breathe|breathed|inside)\b",
        r"\b(?:now|again|then|everything is|all)\s+safe\b",
        r"\bwithin\s+(?:the\s+|all\s+|legal\s+|safe\s+|permitted\s+|allowed\s+|acceptable\s+|these\s+)*limits?\b",
        r"\bacceptable\s+(?:level|limit|air|atmosphere|concentration|exposure|reading|risk|time)s?\b",
        r"\b(?:without|no|free of|free from)\s+(?:any\s+|further\s+)?(?:hazard|danger|risk)s?\b",
        r"\b(?:hazard|danger|risk)[- ]free\b",
        r"\b(?:not|no longer|never)\s+(?:dangerous|hazardous|harmful)\b",
        r"\bharmless\b",
        r"\ball[- ]clear\b",
        r"\b(?:allows?|permits?|clears?|authori[sz]es?)\s+(?:an\s+|the\s+|your\s+|any\s+)?entry\b",
        r"\bentry\s+(?:is|may be|can be)\s+(?:now\s+)?(?:allowed|permitted|cleared|possible|safe)\b",
        r"\bclear(?:ed)?\s+(?:for|of)\s+(?:entry|gas|people)\b",
        r"\b(?:time|minutes?|hours?)\s+(?:allowed|permitted|you have|to stay|of stay)\s*(?:inside|in there)?\b",
        r"\b(?:stay|remain|work)\s+(?:inside|in it|in there)\s+for\b",
        r"\byou\s+(?:are|will be|should be)\s+(?:safe|all right|fine|unharmed)\b",
        r"\b(?:nothing|no need)\s+to\s+(?:worry|fear)\b",
        # a reading that soothes, and minutes that somebody may spend beside a fan that stands
        rf"\b(?:air|atmosphere|readings?|concentrations?|levels?)\s+{_BE}\s+{_ADVERB}"
        r"(?:good|fine|clean|normal|ok|okay|all right|low enough)\b",
        r"\b(?:minutes?|time)\s+(?:in which\s+)?to\s+(?:watch|wait|look in|spare)\b",
    )
)

_NEGATORS = (
    r"(?:no|not|never|nobody|none|nor|neither|without|nothing|cannot|refuses?|refused|isn't|don't|doesn't|"
    r"aren't|won't|few)"
)
_BEFORE = re.compile(rf"\b{_NEGATORS}\b")
_OPENING = re.compile(r"^\W*(?:no|never|nobody|nothing|none|neither|not)\b")


def shown(markup: str) -> str:
    """What a reader sees of HTML or SVG: inline tags vanish, other tags end a sentence."""
    text = re.sub(r"(?s)<(script|style)\b.*?</\1>", ". ", markup)
    text = re.sub(r"</?(?:a|abbr|b|code|em|i|mark|span|strong|sub|sup|tspan)\b[^>]*>", "", text)
    return html.unescape(re.sub(r"<[^>]+>", ". ", text))


def sentences(text: str) -> list[str]:
    """The sentences of a text, in lower case, without marks of emphasis and links."""
    plain = re.sub(r"\[\[(?:sheet|page):[^\]|]*\|?([^\]]*)\]\]", r"\1", text)
    plain = re.sub(r"\]\([^)]*\)", "]", plain)
    plain = re.sub(r"[*_`\[\]<>“”\"]", " ", plain.lower().replace("’", "'").replace("\u00a0", " "))
    return [" ".join(part.split()) for part in re.split(r"[.!?;:|]\s|\n\s*\n|\n\s*[-\d|]", plain)]


def _denied(sentence: str, start: int) -> bool:
    """Whether what stands at ``start`` is denied: by the sentence's opening or just before it."""
    if _OPENING.search(sentence[:start]):
        return True
    words = sentence[:start].split()
    near = " ".join(words[-7:])
    near = near.rsplit(",", 1)[-1] if ", so" in near or ", and" in near or ", but" in near else near
    return bool(_BEFORE.search(near))


_FAN = re.compile(
    r"\b(?:fan|fans|blower|suction|ventilator)\b[^.|]{0,60}\b(?:stop(?:s|ped)?|stand(?:s|ing)?|fail(?:s|ed)?|off|silent)\b|"
    r"\b(?:stopped|standing|silent|dead)\s+(?:fan|blower|suction)\b|\bwithout air\b"
)
_MINUTES = re.compile(r"(?:\d+|\b(?:a few|several|five|ten|fifteen|twenty|thirty))\s*(?:min|minutes?|mins)\b")
_SPENT = re.compile(r"\b(?:watch|wait|up to|over|longer than|within|less than|first|stay|stand by|look)\b")


def waiting(text: str) -> list[str]:
    """Every line or row that gives minutes for watching or waiting beside a fan that stands.

    A line is read with the heading that it stands under, so that an entry headed “The fan has stopped” counts whole.
    """
    found, heading = [], ""
    for line in text.lower().replace("’", "'").splitlines():
        if line.startswith("#"):
            heading = line
        if _FAN.search(line) or (_FAN.search(heading) and not line.startswith("#")):
            minutes = _MINUTES.search(line)
            if minutes and _SPENT.search(line) and not re.search(r"\[\[gas:[a-z-]+\]\]", line):
                found.append(line.strip())
    return found


def faults(text: str) -> list[str]:
    """Every sentence of a text that allows an entry or calls a place safe, with what was matched."""
    return [fault for sentence in sentences(text) for fault in _faults_of(sentence)]


@lru_cache(maxsize=100_000)  # every page repeats the sentences of its frame
def _faults_of(sentence: str) -> tuple[str, ...]:
    return tuple(
        f"“{match[0]}” in: {sentence}"
        for pattern in PATTERNS
        for match in pattern.finditer(sentence)
        if not _denied(sentence, match.start())
    )
