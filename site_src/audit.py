"""What the search for known weaknesses found, judged: ``pip_audit --format json ... | python -m site_src.audit``.

A package that could not be looked up has not been found to be sound, so it fails like one with a weakness.
"""

from __future__ import annotations

import json
import sys
from typing import NamedTuple


class Judged(NamedTuple):
    """Whether all is well, and what to say."""

    sound: bool
    lines: list[str]


def judged(report: str) -> Judged:
    """Judge a report.

    Parameters
    ----------
    report : str
        What pip-audit writes as JSON: ``dependencies``, each with ``vulns`` or a ``skip_reason``.
    """
    try:
        packages = json.loads(report)["dependencies"]
        skipped = [one for one in packages if "skip_reason" in one]
        looked_up = [one for one in packages if "vulns" in one]
        weak = [one for one in looked_up if one["vulns"]]
        lines = [f"{one['name']} {one['version']}: {_named(one['vulns'])}" for one in weak]
    except (json.JSONDecodeError, KeyError, TypeError) as fault:
        return Judged(False, [f"The search for known weaknesses gave no report that can be read ({fault!r})."])
    if not packages or len(skipped) + len(looked_up) < len(packages):
        return Judged(False, ["The report says nothing of some packages, or names none at all."])
    if skipped:
        lines.append(f"{len(skipped)} of {len(packages)} packages could not be looked up, so nothing is known of them:")
        lines += [f"  {one['name']}: {one['skip_reason']}" for one in skipped]
    if not lines:
        lines = [f"{len(packages)} packages looked up; no weakness of theirs is known."]
    return Judged(not weak and not skipped, lines)


def _named(weaknesses: list[dict[str, object]]) -> str:
    return "; ".join(f"{one['id']}, mended in {one.get('fix_versions') or 'no version so far'}" for one in weaknesses)


def main() -> int:
    """Judge the report on standard input; return 0 when all is well."""
    found = judged(sys.stdin.read())
    print("\n".join(found.lines), file=sys.stdout if found.sound else sys.stderr)
    return 0 if found.sound else 1


if __name__ == "__main__":
    sys.exit(main())
