"""Write docs/stations.md from the worked stations, or check that it is current.

python tools/station_table.py            write it
python tools/station_table.py --check    fail when it is not what the stations give
"""

from __future__ import annotations

import sys
from pathlib import Path

from boomwright.base import PlanVerdict, exceeded_texts, open_text, use_text, verdict_text
from boomwright.base.quantity import write
from boomwright.session.files import PlanFolder, load_plan
from boomwright.structure import Margin
from boomwright.study.permits import PermitCheck, permit_plan
from boomwright.study.structure import StructureCheck, structure_plan
from boomwright.study.verdict import judge_plan

ROOT = Path(__file__).resolve().parents[1]
STATIONS = ROOT / "examples" / "stations"
PAGE = ROOT / "docs" / "stations.md"

HEAD = """# Worked stations

Twelve invented stations, from a wire on a gable to a tower in the ice belt, each a plan file in
[examples/stations](../examples/stations). This page is written by `tools/station_table.py`, and a
test holds it to what the programs say today. Nothing here is a design: the tower maker's
drawings, the local building official and a licensed engineer overrule every figure.

Use is demand over limit. A check that lacks an input is *not checked* and never a pass. Wind is
as entered, by the code of the place: a 3 s gust by an American edition, a 10 min mean by
EN 1991-1-4, or pressures as an engineer states them. Elements, booms and masts use the wind of
the method, everything below wind without a factor on it. Where there is ice, all of it is
checked bare and again with ice and the gust that comes with it. As antennas the elements are
first guesses.

| Station | Wind | Ice | Exceeded | Not checked | Within | Most used check | Use |
|---|---|---|---|---|---|---|---|
"""

MIDDLE = """
## What each one teaches

"""

PERMITS_HEAD = """
## Permissions and clearances

General information, not legal advice. Airfields, runway ends and heliports come from an open table
of October 2022; runway ends entered in the plan replace it. What is to be asked holds what
everybody is asked.

| Station | Country | Highest part | Exceeded | Notice needed | To be asked | Not checked |
|---|---|---|---|---|---|---|
"""


def _used(line: Margin) -> float:
    return line.use or 0.0


def _row(name: str, found: StructureCheck) -> str:
    report = found.report
    counts = dict.fromkeys(("exceeded", "not checked", "within"), 0)
    for line in report.ledger:
        counts[line.verdict] += 1
    used = [line for line in report.ledger if line.use is not None]
    worst = max(used, key=_used) if used else None
    ice = found.plan.site.ice_thickness
    cells = (
        f"[{found.plan.title}](../examples/stations/{name})",
        report.basis if report.inputs.wind is None else report.inputs.wind.text,
        "not given" if ice is None else f"{ice * 1e3:.0f} mm ({ice / 0.0254:.2f} in)",
        str(counts["exceeded"]),
        str(counts["not checked"]),
        str(counts["within"]),
        "none" if worst is None else worst.name,
        "" if worst is None else use_text(_used(worst)),
    )
    written = (write(cell, system="metric") for cell in cells)
    return f"| {' | '.join(written)} |\n"


def _lesson(found: StructureCheck, verdict: PlanVerdict) -> str:
    said = (verdict_text(verdict), *exceeded_texts(verdict, system="metric"), open_text(verdict))
    text = f"**{found.plan.title}.** {' '.join(each for each in said if each)}"
    if found.fixes:
        best = found.fixes[0]
        text += (
            f" Best single fix for {best.label}: {write(best.text, system='metric')}, from "
            f"{best.stress_before / 1e6:.0f} to {best.stress_after / 1e6:.0f} MPa."
        )
    skipped = [line for line in found.report.ledger if line.verdict == "not checked"]
    if skipped:
        name, why = (write(each, system="metric") for each in (skipped[0].name, skipped[0].reason))
        text += f" Not checked first: {name}, because {why}."
    return text + "\n\n"


def _permit_row(name: str, found: PermitCheck) -> str:
    counted, highest = found.sheet.counted(), found.installation.heights.highest
    cells = (
        f"[{found.plan.title}](../examples/stations/{name})",
        found.installation.country,
        f"{highest:.1f} m ({highest / 0.3048:.0f} ft)",
        *(
            str(counted.get(verdict, 0))
            for verdict in ("exceeded", "notice needed", "ask", "not checked")
        ),
    )
    written = (write(cell, system="metric") for cell in cells)
    return f"| {' | '.join(written)} |\n"


def station_page() -> str:
    """Run every station and write the page.

    Returns:
        Markdown
    """
    rows, lessons, permit_rows = "", "", ""
    for path in sorted(STATIONS.glob("*.toml")):
        plan = load_plan(path).plan
        structure, permits = structure_plan(plan), permit_plan(plan)
        verdict = judge_plan(plan, files=PlanFolder(STATIONS), permits=permits)
        rows += _row(path.name, structure)
        lessons += _lesson(structure, verdict)
        permit_rows += _permit_row(path.name, permits)
    return HEAD + rows + MIDDLE + lessons.rstrip() + "\n" + PERMITS_HEAD + permit_rows


def main() -> int:
    """Write or check the page.

    Returns:
        exit status
    """
    page = station_page()
    if "--check" in sys.argv[1:]:
        if PAGE.read_text(encoding="utf-8") == page:
            return 0
        print("docs/stations.md is not current: run python tools/station_table.py")
        return 1
    PAGE.write_text(page, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
