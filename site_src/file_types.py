"""What a file is by its ending, and whether its name stands for one content for good."""

from __future__ import annotations

import re

TYPES = {
    ".bin": "application/octet-stream",
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".webp": "image/webp",
    ".whl": "application/zip",
    ".xml": "application/xml",
    ".zip": "application/zip",
}
# A name with a hash in it, of the file or of its folder, stands for one content for good.
FOR_GOOD = re.compile(r"(^|/)runtime/[0-9a-f]{12}/|\.[0-9a-f]{8,12}(\.min)?\.\w+$")
