"""Time the steep plan and the steep fit in this Python and in the browser's own, under Node.

python -m bench.steep_plan
"""

import json
from typing import Any

from site_src.node_run import run_python
from site_src.runtime import read_pins, served_runtime
from site_src.settings import ROOT

PLAN = {
    "barley_moisture": "12.5",
    "water_temp_c": "14",
    "corn_weight_g": "45",
    "target_moisture": "45",
    "start": "06:00",
    "quiet_from": "22:00",
    "quiet_until": "05:00",
    "cast_from": "06:00",
    "cast_until": "14:00",
}
FIT = {
    "weighings": [["8", "212"], ["24", "228.5"]],
    "basket_g": "84",
    "sample_g": "100",
    "barley_moisture": "12.5",
    "water_temp_c": "14",
    "corn_weight_g": "45",
    "stages": [["8"], ["8"], ["8"], ["12"], ["3"]],
    "target_moisture": "44",
}
CASES: list[tuple[str, str, dict[str, Any]]] = [
    ("plan, three immersions at 14 C (wanted: 300 ms)", "steep-plan", PLAN),
    ("plan, five immersions at 6 C", "steep-plan", {**PLAN, "water_temp_c": "6"}),
    ("plan, a wish in the way", "steep-plan", {**PLAN, "vessel_hours": "30"}),
    ("fit, two weighings", "steep-fit", FIT),
]
CODE = """
import json, sys, time
sys.path.insert(0, "/source")
def main(cases):
    from calculators.page import respond
    found = []
    for name, sheet, questions in cases:
        asked = {"sheet": sheet, "prefix": "x", "root": "../", "questions": questions, "date": ""}
        times = []
        for _ in range(7):
            begun = time.perf_counter()
            state = json.loads(respond(json.dumps(asked)))["state"]
            times.append(1000.0 * (time.perf_counter() - begun))
        found.append([name, state, min(times[1:]), sorted(times[1:])[3]])
    return found
"""


def main() -> None:
    here: dict[str, Any] = {}
    exec(CODE, here)  # the same piece of source in both
    for where, found in (
        ("this Python", here["main"](CASES)),
        (
            "the browser's Python",
            run_python(CODE, CASES, runtime=served_runtime(read_pins()), folders={"/source": ROOT}),
        ),
    ):
        print(where)
        for name, state, best, middle in json.loads(json.dumps(found)):
            print(f"    {name:50s} {state}: best {best:6.0f} ms, median {middle:6.0f} ms")


if __name__ == "__main__":
    main()
