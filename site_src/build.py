"""Builds the whole site into a folder."""

from __future__ import annotations

import logging
import shutil
from collections.abc import Callable
from functools import partial
from importlib.metadata import version
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemBytecodeCache
from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort, MkDocsException
from mkdocs.utils import get_build_datetime
from pymdownx.superfences import SuperFencesException

from calculators import __version__
from calculators.asking.figures import day_words
from site_src.cache import tidy
from site_src.checked import read_through
from site_src.corrections import FILE, read_corrections
from site_src.earlier import carry_over, named
from site_src.house import on_paper
from site_src.house.overlay import overlay
from site_src.post import finish
from site_src.runtime import read_pins
from site_src.settings import CACHE, ROOT, SITE, BuildError

_OF_HOUSE = "assets/browser/styles/house.css"
"""Asked for only where a house has something of its own."""


def build(
    site: Path = SITE,
    *,
    site_url: str | None = None,
    docs: Path | None = None,
    cache: Path = CACHE,
    published: Path | None = None,
    quick: bool = False,
    say: Callable[[str], None] = print,
) -> Path:
    """Build the site.

    Parameters
    ----------
    site : Path
        Where to put it. A site that is there stays as it is until the new one is whole.
    site_url : str, optional
        Where it will be served; the environment's SITE_URL if not given.
    docs : Path, optional
        The pages, if not the repository's own.
    cache : Path
        Where the runtime and compressed files are kept between builds.
    published : Path, optional
        The site that readers have now, if it is not the one to be replaced: its lasting files are served on for a
        while.
    quick : bool
        Spend less on compressing large files.
    say : Callable[[str], None]
        Called with a line to show.

    Returns
    -------
    Path
        The folder of the built site.

    Raises
    ------
    BuildError
        On any fault, with what is wrong and where.
    """
    _log_to_terminal()
    fresh = site.with_name(f"{site.name}.new")
    shutil.rmtree(fresh, ignore_errors=True)
    options: dict[str, Any] = {"site_dir": str(fresh)}
    if site_url:
        options["site_url"] = site_url
    if docs:
        options["docs_dir"] = str(docs)
    whole = False
    try:
        config = load_config(str(ROOT / "mkdocs.yml"), **options)
        if docs:
            config.nav = None  # the repository's own names pages that are not there
        config.extra["edition"] = __version__
        config.extra["built"] = day_words(get_build_datetime(), weekday=False)
        config.site_url = f"{str(config.site_url).rstrip('/')}/"
        own = None if docs else overlay(config.site_url, say=say)
        on_paper.site_url = config.site_url
        if own:
            config.docs_dir = str(own.docs)
            config.nav = [*(config.nav or []), *own.nav]
            config.extra_css = [*config.extra_css, _OF_HOUSE]
        config.plugins.events["env"].append(partial(_with_kept_templates, cache=cache))
        mkdocs_build(config)
        if not own:
            (fresh / _OF_HOUSE).unlink(missing_ok=True)
        corrections = read_corrections(Path(config.docs_dir) / "_includes" / FILE.name)
        finish(fresh, config.site_url, cache, corrections=corrections, quick=quick, say=say)
        carry_over(named(published) if published else site, fresh, say=say)
        read_through(fresh, read_pins())
        whole = True
    except (Abort, MkDocsException, SuperFencesException) as fault:
        raise BuildError(str(fault)) from fault
    finally:
        if not whole:
            shutil.rmtree(fresh, ignore_errors=True)
    former = site.with_name(f"{site.name}.old")
    shutil.rmtree(former, ignore_errors=True)
    if site.exists():
        site.rename(former)
    fresh.rename(site)
    shutil.rmtree(former, ignore_errors=True)
    return site


def _with_kept_templates(env: Environment, *, cache: Path, **_: Any) -> Environment:
    """Have the theme's templates compiled once: each is kept until its text changes."""
    folder = cache / "templates" / f"jinja-{version('jinja2')}"
    folder.mkdir(parents=True, exist_ok=True)
    tidy(folder)
    env.bytecode_cache = FileSystemBytecodeCache(str(folder))
    return env


def _log_to_terminal() -> None:
    log = logging.getLogger("mkdocs")
    if not log.handlers:
        handler = logging.StreamHandler()
        handler.setFormatter(logging.Formatter("%(levelname)s: %(message)s"))
        handler.setLevel(logging.WARNING)
        log.addHandler(handler)
    log.setLevel(logging.INFO)
