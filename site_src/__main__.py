"""Command line of the site, ``python -m site_src``: what it can do says ``--help``."""

from __future__ import annotations

import argparse
import os
import sys
from pathlib import Path

from site_src.settings import DEFAULT_PORT, SITE, BuildError
from site_src.taken import NotTakenUp, taken_up


def main() -> int:
    """Run one command; return the exit code."""
    if sys.argv[1:2] == ["house"]:
        from site_src.house.command import main as of_house

        return of_house(sys.argv[2:])
    try:
        with taken_up():
            return _run()
    except NotTakenUp:
        return 1


def _run() -> int:
    # Imported now and not before: what the house's file moves is read while these are imported.
    from site_src.book import BOOK, make_book
    from site_src.build import build
    from site_src.checked import check_site
    from site_src.release import RELEASES, make_release
    from site_src.runtime import pin_served
    from site_src.serve import serve
    from site_src.wall_files import WALL, make_walls

    parser = argparse.ArgumentParser(prog="python -m site_src", description="Builds and serves the site.")
    commands = parser.add_subparsers(dest="command", required=True)
    builds = commands.add_parser("build", help="build the site, as it should be published")
    builds.add_argument("--to", type=Path, default=SITE, metavar="FOLDER")
    builds.add_argument("--published", type=Path, metavar="FOLDER", help="what readers have now, if it is elsewhere")
    builds.add_argument("--quick", action="store_true", help="spend less on compressing large files")
    serves = commands.add_parser("serve", help="build, serve on this machine, and build again after a change")
    serves.add_argument("--port", type=int, default=DEFAULT_PORT)
    serves.add_argument("--host", default="127.0.0.1", help="0.0.0.0 lets other machines in, such as a phone")
    serves.add_argument("--shared", type=Path, metavar="FOLDER", help="let devices share one day-book through a folder")
    books = commands.add_parser("book", help="print the whole handbook as one PDF")
    books.add_argument("--to", type=Path, default=BOOK, metavar="FILE")
    books.add_argument("pages", nargs="*", help="addresses of pages, such as procedures/casting; all if none is named")
    walls = commands.add_parser("wall", help="print each procedure on one page for the wall, A4 and A3")
    walls.add_argument("--to", type=Path, default=WALL, metavar="FOLDER")
    walls.add_argument("procedures", nargs="*", help="such as steeping; all if none is named")
    checks = commands.add_parser("check", help="read a built site through against its checksums")
    checks.add_argument("site", type=Path, nargs="?", default=SITE, metavar="FOLDER")
    releases = commands.add_parser("release", help="build the site and pack it into one archive, with its checksum")
    releases.add_argument("--to", type=Path, default=RELEASES, metavar="FOLDER")
    papers = commands.add_parser("papers", help="keep each paper of this house as it is approved now")
    papers.add_argument("--list", action="store_true", help="only say how each stands")
    as_of = commands.add_parser("as-of", help="print what was valid on a day")
    as_of.add_argument("day", metavar="DATE", help="such as 2026-11-29")
    as_of.add_argument("--to", type=Path, metavar="FOLDER", help="where to put it; as-of-DATE if not named")
    as_of.add_argument("--git", action="store_true", help="build the whole book of that day from git")
    commands.add_parser("pin", help="write the SHA-256 of the repacked runtime into runtime.toml")
    words = parser.parse_args()
    try:
        if words.command == "build":
            print(f"Built {build(words.to, published=words.published, quick=words.quick)}")
        elif words.command == "check":
            print(f"{check_site(words.site)} files, each as it was built")
        elif words.command == "book":
            print(f"Printed {make_book(words.to, only=words.pages)}")
        elif words.command == "wall":
            print(f"Printed {len(make_walls(words.to, only=words.procedures))} sheets into {words.to}")
        elif words.command == "release":
            print("\n".join(make_release(words.to)))
        elif words.command == "papers":
            from site_src.house.control import keep_papers

            print("\n".join(keep_papers(only_list=words.list)))
        elif words.command == "as-of":
            from site_src.house.control import as_of_day

            print("\n".join(as_of_day(words.day, words.to, by_git=words.git)))
        elif words.command == "serve":
            serve(words.host, words.port, os.environ.get("SITE_URL"), words.shared)
        else:
            pin_served()
    except BuildError as fault:
        stopped = "" if words.command == "check" else "The build stopped. "
        print(f"{stopped}{fault}", file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
