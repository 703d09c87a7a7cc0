"""The demo: the main job on a plan of our own, in one folder."""

from __future__ import annotations

from pathlib import Path

from boomwright.base import PlanVerdict, UnitSystem
from boomwright.base.records import dataclass
from boomwright.report.chapter import PARTS
from boomwright.session.book import Paper, book_of, write_parts
from boomwright.session.drawings import write_drawings
from boomwright.session.files import load_plan, packaged_text, save_bytes
from boomwright.session.new_plan import make_plan
from boomwright.session.work_files import write_work
from boomwright.study.computing import Computation, compute
from boomwright.study.verdict import judge_plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Demo:
    """The demo as it was made."""

    plan: Path  #: its plan file
    was_there: bool  #: whether the plan file was there already and was used as found
    files: tuple[Path, ...]  #: files made from it: the book first, then drawings
    verdict: PlanVerdict  #: the one verdict of the plan
    computation: Computation  #: its readings


def write_demo(folder: Path, *, system: UnitSystem = "metric", paper: Paper = "a4") -> Demo:
    """Run the main job on the demo plan: plan, readings, book and drawings in one folder.

    A plan found in the folder is used as it is, so that what a visitor changed is kept.

    Raises:
        PlanError: when the plan found in the folder has faults
        OSError: when something cannot be written
    """
    path = folder / "plan.toml"
    was_there = path.exists()
    if not was_there:
        make_plan(path, packaged_text("demo.toml"))
        save_bytes(folder / "prices.csv", packaged_text("demo_prices.csv").encode())
    loaded = load_plan(path)
    computation = compute(loaded.plan)
    verdict = judge_plan(loaded.plan, files=loaded.files)
    book = folder / "book.pdf"
    made = book_of(
        loaded.plan,
        files=loaded.files,
        path=path,
        digest=loaded.digest,
        system=system,
        paper=paper,
        computation=computation,
        verdict=verdict,
        parts=PARTS,
    )
    books = write_parts(made, book)
    drawings = folder / "drawings"
    return Demo(
        plan=path,
        was_there=was_there,
        files=(
            *books,
            *write_drawings(computation, folder, system=system),
            *write_work(loaded.plan, drawings, digest=loaded.digest, system=system),
        ),
        verdict=verdict,
        computation=computation,
    )
