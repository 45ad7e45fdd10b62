"""Reads from a page what the pass after the build has to know: addresses, anchors, inline scripts."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser

# Addresses that the browser fetches by itself, as against links that a reader follows.
_FETCHED = {
    ("audio", "src"), ("embed", "src"), ("feimage", "href"), ("frame", "src"), ("iframe", "src"), ("image", "href"),
    ("img", "src"), ("input", "src"), ("link", "href"), ("object", "data"), ("script", "src"), ("source", "src"),
    ("track", "src"), ("use", "href"), ("video", "poster"), ("video", "src"), ("form", "action"),
    ("button", "formaction"), ("body", "background"),
}  # fmt: skip
# Only these kinds of script run; a block of JSON is data.
_SCRIPT_TYPES = {"", "module", "text/javascript", "application/javascript"}
_NOT_FETCHED_LINKS = {"canonical", "next", "prev", "license", "author"}


@dataclass
class PageFacts:
    """What one page refers to and holds."""

    anchors: set[str] = field(default_factory=set)
    links: list[str] = field(default_factory=list)
    fetched: list[str] = field(default_factory=list)
    inline_scripts: list[str] = field(default_factory=list)
    against_policy: list[str] = field(default_factory=list)


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.facts = PageFacts()
        self._script: list[str] | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        values = {name: value or "" for name, value in attrs}
        facts = self.facts
        facts.anchors.update(values[name] for name in ("id", "name") if values.get(name))
        for name, value in values.items():
            plain = name.removeprefix("xlink:")
            if name.startswith("on"):
                facts.against_policy.append(f"<{tag} {name}=…>: the policy stops scripts in attributes")
            elif name == "style":
                facts.against_policy.append(f'<{tag} style="{value}">: the policy stops styles in attributes')
            elif name == "srcset":
                facts.fetched += [part.split()[0] for part in value.split(",") if part.strip()]
            elif (tag, plain) in _FETCHED:
                followed = tag == "link" and values.get("rel", "") in _NOT_FETCHED_LINKS
                (facts.links if followed else facts.fetched).append(value)
            elif plain == "href":
                facts.links.append(value)
        if tag == "style":
            facts.against_policy.append("<style>: the policy stops styles in the page")
        if tag == "script" and "src" not in values and values.get("type", "").lower() in _SCRIPT_TYPES:
            self._script = []

    def handle_data(self, data: str) -> None:
        if self._script is not None:
            self._script.append(data)

    def handle_endtag(self, tag: str) -> None:
        if tag == "script" and self._script is not None:
            self.facts.inline_scripts.append("".join(self._script))
            self._script = None


def read_page(html: str) -> PageFacts:
    """Return what a page refers to and holds."""
    reader = _Reader()
    reader.feed(html)
    reader.close()
    return reader.facts
