"""A page as one plain file that prints by itself: what a house keeps of each paper it has approved."""

from __future__ import annotations

import re
from html import escape
from pathlib import Path
from typing import Any

from markdown import Markdown
from mkdocs.config import load_config

from site_src.settings import ROOT

_STYLE = (
    "body{font:11pt/1.35 serif;max-width:46em;margin:1em auto;padding:0 1em}table{border-collapse:collapse}"
    "td,th{border:1px solid #000;padding:.2em .5em;text-align:left;vertical-align:top}"
    ".hazard,.hang-up,.in-house,.house-paper,blockquote{border:2px solid #000;padding:.2em .8em;margin:1em 0}"
    ".hazard-word{font-weight:bold}svg{max-width:12em}.headerlink,button,.sheet-bar,.paper-bar,.term-note{display:none}"
)
_FORMS = re.compile(r"(?s)<(form|button|progress|script|noscript|template)\b.*?</\1>")
_PERMALINK = re.compile(r'<a class="headerlink"[^>]*>.*?</a>|<span class="term-note".*?</span>', re.DOTALL)
_LINK = re.compile(r"<a\b[^>]*>(.*?)</a>", re.DOTALL)


class Freezer:
    """Draws pages with the book’s own extensions of Markdown."""

    def __init__(self) -> None:
        config = load_config(str(ROOT / "mkdocs.yml"))
        known: dict[str, dict[str, Any]] = config.mdx_configs
        snippets = {**known.get("pymdownx.snippets", {}), "base_path": [str(ROOT / "docs" / "_includes")]}
        self._markdown = Markdown(
            extensions=config.markdown_extensions, extension_configs={**known, "pymdownx.snippets": snippets}
        )

    def page(self, file: Path, title: str) -> str:
        """A page of Markdown as one file of HTML: its words, tables and drawings, without what can be pressed."""
        text = re.sub(r"\A---\n.*?\n---\n", "", file.read_text("utf-8"), flags=re.DOTALL)
        drawn = self._markdown.reset().convert(text)
        plain = _LINK.sub(r"\1", _PERMALINK.sub("", _FORMS.sub("", drawn)))
        head = f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
        return f"{head}<style>{_STYLE}</style></head>\n<body>\n{plain}\n</body></html>\n"
