"""The content security policy: nothing from anywhere but the site itself."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from site_src.htmlfacts import PageFacts
from site_src.settings import BuildError

HEADERS_FILE = "headers.json"
_CHARSET = re.compile(r"<meta charset=[^>]*>", re.IGNORECASE)


def policy(facts: Iterable[PageFacts]) -> str:
    """Return the one policy of all pages.

    It names the SHA-256 of every inline script of every page, so that going from page to page without a
    reload keeps one policy.
    """
    hashes = sorted({_hash(script) for page in facts for script in page.inline_scripts})
    scripts = " ".join(["'self'", "'wasm-unsafe-eval'", *hashes])
    return (
        f"default-src 'self'; script-src {scripts}; style-src 'self'; img-src 'self' data:; "
        "object-src 'none'; base-uri 'self'; form-action 'self'"
    )


def with_policy(html: str, text: str, where: str) -> str:
    """Return the page with the policy as the first element after its charset."""
    meta = f'<meta http-equiv="Content-Security-Policy" content="{text}">'
    changed, count = _CHARSET.subn(lambda found: found[0] + meta, html, count=1)
    if not count:
        raise BuildError(f"{where} declares no charset, so there is no place for its policy")
    return changed


CAMERA_PAGE = "records/by-codes/"
"""The one page that may ask for the camera, and only for itself."""

PERMISSIONS = "Permissions-Policy"
_NOTHING = "camera=(), microphone=(), geolocation=()"
WITH_CAMERA = _NOTHING.replace("camera=()", "camera=(self)")

# For an answer before there is a site.
STRICTEST = {
    PERMISSIONS: _NOTHING,
    "Content-Security-Policy": "default-src 'none'",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


def write_headers(site: Path, text: str) -> None:
    """Write the headers that a server should send with every file, for ours and for anyone else's."""
    headers = {**STRICTEST, "Content-Security-Policy": text}
    (site / HEADERS_FILE).write_text(json.dumps(headers, indent=2) + "\n", "utf-8")


def read_headers(site: Path) -> Mapping[str, str]:
    """Read the headers back."""
    headers: dict[str, str] = json.loads((site / HEADERS_FILE).read_text("utf-8"))
    return headers


def headers_of(headers: Mapping[str, str], name: str) -> Mapping[str, str]:
    """Return the headers of one file of the site.

    Parameters
    ----------
    headers : Mapping[str, str]
        Those of every file.
    name : str
        Its path in the site, such as ``records/by-codes/index.html``.
    """
    return {**headers, PERMISSIONS: WITH_CAMERA} if name.removesuffix("index.html") == CAMERA_PAGE else headers


def _hash(script: str) -> str:
    return f"'sha256-{base64.b64encode(hashlib.sha256(script.encode()).digest()).decode()}'"
