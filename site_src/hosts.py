"""Settings for two common web servers, made from the same headers, types and rule of keeping as our own server's."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from urllib.parse import urlsplit

from site_src.file_types import FOR_GOOD, TYPES
from site_src.policy import CAMERA_PAGE, PERMISSIONS, WITH_CAMERA, read_headers
from site_src.shared_folder import BELOW

FOLDER = "serving"
PLACE = "/srv/handbook"
SHARED = "/srv/handbook-shared"
PASSWORDS = "/etc/handbook-passwords"
_KEEP = "public, max-age=31536000, immutable"
_CAMERA = rf"{CAMERA_PAGE}(index\.html)?(\.br|\.gz)?$"
_INTRODUCTION = (
    "# Made together with the site: the policy names the scripts of these very pages. A new site brings a new file.",
    f"# {PLACE} stands for the folder that holds the site under its path; change it to yours.",
    "# Readers can keep the handbook on their device only from an https:// address: add your certificate.",
)


def write_hosts(site: Path, site_url: str) -> None:
    """Write the settings into the site, for each server with a shared folder and without one."""
    base = urlsplit(site_url).path or "/"
    headers = read_headers(site)
    folder = site / FOLDER
    folder.mkdir()
    for name, made in (("nginx", nginx), ("apache", apache)):
        (folder / f"{name}.conf").write_text(made(headers, base), "utf-8")
        (folder / f"{name}-shared.conf").write_text(made(headers, base, shared=True), "utf-8")


def nginx(headers: Mapping[str, str], base: str, *, shared: bool = False) -> str:
    """Return a file for nginx's folder conf.d.

    Parameters
    ----------
    headers : Mapping[str, str]
        Sent with every answer.
    base : str
        Path of the site, such as ``/`` or ``/handbook/``.
    shared : bool
        With the folder through which a house shares one day-book.
    """
    types = [f'        "{kind}" {suffix[1:]};' for suffix, kind in TYPES.items()]
    sent = [f"    add_header {name} {_nginx_value(name, value)} always;" for name, value in headers.items()]
    lines = [
        *_INTRODUCTION,
        "map $uri $handbook_permissions {  # one page may ask for the camera",
        f'    default "{headers[PERMISSIONS]}";',
        f'    "~^{re.escape(base)}{_CAMERA}" "{WITH_CAMERA}";',
        "}",
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
        *(_nginx_shared(headers, base) if shared else ()),
        "}",
    ]
    return "\n".join(lines) + "\n"


def _nginx_value(name: str, value: str) -> str:
    return "$handbook_permissions" if name == PERMISSIONS else f'"{value}"'


def _nginx_shared(headers: Mapping[str, str], base: str) -> list[str]:
    sent = [f"        add_header {name} {_nginx_value(name, value)} always;" for name, value in headers.items()]
    return [
        f"    # One day-book for all devices of the house. {SHARED} has to belong to the user that nginx runs as.",
        f"    # Only over https:// and only with a password: {PASSWORDS} is made by htpasswd.",
        f"    location {base}{BELOW} {{",
        f"        alias {SHARED}/;",
        '        auth_basic "Day-book of the house";',
        f"        auth_basic_user_file {PASSWORDS};",
        "        index .none;",
        "        autoindex on;",
        "        autoindex_format json;",
        "        dav_methods PUT;",
        "        dav_access user:rw group:r;",
        "        client_max_body_size 4m;",
        "        gzip_static off;",
        '        set $twice "";',
        "        if ($request_method = PUT) { set $twice put; }",
        '        if (-f $request_filename) { set $twice "$twice there"; }',
        '        if ($twice = "put there") { return 409; }  # a file is never written over',
        *sent,
        '        add_header Cache-Control "no-store" always;',
        "    }",
    ]


def _apache_shared(base: str) -> list[str]:
    return [
        f"# One day-book for all devices of the house. {SHARED} has to belong to the user that Apache runs as.",
        f"# Only over https:// and only with a password: {PASSWORDS} is made by htpasswd.",
        "# It needs the modules dav, dav_fs, alias, autoindex, auth_basic, authn_file and authz_user.",
        f'Alias "{base}{BELOW}" "{SHARED}/"',
        f'<Directory "{SHARED}">',
        "    Dav On",
        "    AuthType Basic",
        '    AuthName "Day-book of the house"',
        f'    AuthUserFile "{PASSWORDS}"',
        "    <RequireAll>",
        "        Require valid-user",
        "        Require method GET PUT PROPFIND OPTIONS",
        "    </RequireAll>",
        "    DirectoryIndex disabled",
        "    Options +Indexes",
        "    LimitRequestBody 4194304",
        "    RewriteEngine On",
        "    # A file is never written over.",
        "    RewriteCond %{REQUEST_METHOD} =PUT",
        "    RewriteCond %{REQUEST_FILENAME} -f",
        "    RewriteRule ^ - [R=409,L]",
        '    Header always set Cache-Control "no-store"',
        "</Directory>",
    ]


def apache(headers: Mapping[str, str], base: str, *, shared: bool = False) -> str:
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
        f'    Header always set {PERMISSIONS} "{WITH_CAMERA}" "expr=%{{REQUEST_URI}} =~ m#{re.escape(base)}{_CAMERA}#"',
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
        *(_apache_shared(base) if shared else ()),
    ]
    return "\n".join(lines) + "\n"
