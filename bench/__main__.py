"""Everything that is measured: ``make bench``, or ``python -m bench --rounds 5``."""

from __future__ import annotations

import argparse

from bench import calibration, day_book_growth, hydration, practice, practice_taps, readiness_calls
from bench.visits import report
from bench.worlds import WORLDS

parser = argparse.ArgumentParser(prog="python -m bench")
parser.add_argument("--rounds", type=int, default=5, help="visits of each kind; the table shows medians")
for line in report(parser.parse_args().rounds):
    print(line, flush=True)
hydration.main()
readiness_calls.main()
day_book_growth.main()
for line in [*practice.speed(), *practice.tables(practice.JUDGE), *practice_taps.report()]:
    print(line, flush=True)
calibration.show(calibration.BATCHES, list(WORLDS))
