"""Settings for two common web servers, made from the same headers, types and rule of keeping as our own server's."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from urllib.parse import urlsplit

from site_src.file_types import FOR_GOOD, TYPES
from site_src.policy import read_headers

FOLDER = "serving"
PLACE = "/srv/handbook"
_KEEP = "public, max-age=31536000, immutable"
_INTRODUCTION = (
    "# Made together with the site: the policy names the scripts of these very pages. A new site brings a new file.",
    f"# {PLACE} stands for the folder that holds the site under its path; change it to yours.",
    "# Readers can keep the handbook on their device only from an https:// address: add your certificate.",
)


def write_hosts(site: Path, site_url: str) -> None:
    """Write ``serving/nginx.conf`` and ``serving/apache.conf`` into the site."""
    base = urlsplit(site_url).path or "/"
    headers = read_headers(site)
    folder = site / FOLDER
    folder.mkdir()
    (folder / "nginx.conf").write_text(nginx(headers, base), "utf-8")
    (folder / "apache.conf").write_text(apache(headers, base), "utf-8")


def nginx(headers: Mapping[str, str], base: str) -> str:
    """Return a file for nginx's folder conf.d.

    Parameters
    ----------
    headers : Mapping[str, str]
        Sent with every answer.
    base : str
        Path of the site, such as ``/`` or ``/handbook/``.
    """
    types = [f'        "{kind}" {suffix[1:]};' for suffix, kind in TYPES.items()]
    sent = [f'    add_header {name} "{value}" always;' for name, value in headers.items()]
    lines = [
        *_INTRODUCTION,
        "map $uri $handbook_keeping {",
        '    default "no-cache";',
        f'    "~{FOR_GOOD.pattern}" "{_KEEP}";',
        "}",
        "server {",
        "    listen 80;",
        f"    root {PLACE};",
        "    index index.html;",
        f"    error_page 404 {base}404.html;",
        "    absolute_redirect off;",
        "    gzip_static on;  # sends the .gz beside a file; with the brotli module, brotli_static on; as well",
        "    gzip_vary on;",
        *sent,
        "    add_header Cache-Control $handbook_keeping;",
        "    types {",
        *types,
        "    }",
        "}",
    ]
    return "\n".join(lines) + "\n"


def apache(headers: Mapping[str, str], base: str) -> str:
    """Return a file for Apache's folder conf-enabled; it needs mod_headers, mod_mime and mod_rewrite."""
    for_good = FOR_GOOD.pattern.removesuffix("$") + "(\\.br|\\.gz)?$"  # Apache asks again after a rewrite
    types = [f'    AddType "{kind}" {suffix}' for suffix, kind in TYPES.items()]
    sent = [f'    Header always set {name} "{value}"' for name, value in headers.items()]
    squeezed = [
        line
        for name, suffix in (("br", ".br"), ("gzip", ".gz"))
        for line in (
            f"    RewriteCond %{{HTTP:Accept-Encoding}} \\b{name}\\b",
            f"    RewriteCond %{{REQUEST_FILENAME}}{suffix} -f",
            f"    RewriteRule ^(.+)$ $1{suffix} [END]",
        )
    ]
    lines = [
        *_INTRODUCTION,
        f'<Directory "{PLACE}">',
        "    Require all granted",
        "    Options -Indexes +FollowSymLinks",
        "    DirectoryIndex index.html",
        f"    ErrorDocument 404 {base}404.html",
        *sent,
        '    Header set Cache-Control "no-cache"',
        f'    Header set Cache-Control "{_KEEP}" "expr=%{{REQUEST_URI}} =~ m#{for_good}#"',
        "    Header merge Vary Accept-Encoding",
        *types,
        "    # The .br or .gz beside a file is sent to a browser that reads it.",
        "    RemoveType .br .gz",
        "    RemoveLanguage .br",
        "    AddEncoding br .br",
        "    AddEncoding gzip .gz",
        "    RewriteEngine On",
        *squeezed,
        "</Directory>",
    ]
    return "\n".join(lines) + "\n"
