"""A plan desk without a disk and with made-up readings, for tests of the page."""

from __future__ import annotations

import threading
import time
import tomllib
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

from boomwright.base import SaveConflictError, SolverError
from boomwright.charts.blocks import Words, WorkSheet
from boomwright.parts import Beam
from boomwright.plan import Plan
from boomwright.reach import BeamReadings, QuickLook, WavePicture, wave_picture
from boomwright.report.model import Canvas
from boomwright.session.plan_library import PlanLibrary
from boomwright.session.plan_session import PlanSession
from boomwright.solver import Ground
from boomwright.web import PlanDesk
from fakes.reach import fake_reach
from fakes.readings import fake_readings

PLAN = """boomwright = 1
title = "Three elements for a test"  # the owner's words

[site]
ground = "medium dry"

[[beam]]
name = "20m"
band = ["14.000 MHz", "14.350 MHz"]
design = "14.175 MHz"
height = "16 m"
heading = "300 deg"
material = "6061-T6"
feed = { kind = "split", gap = "40 mm" }
  [[beam.element]]
  role = "reflector"
  at = "0 m"
  half = [["25.4 mm", "1.83 m"], ["22.2 mm", "1.22 m"], ["19.05 mm", "2.35 m"]]
  [[beam.element]]
  role = "driven"
  at = "2.6 m"  # room for the clamp
  half = [["25.4 mm", "1.83 m"], ["22.2 mm", "1.22 m"], ["19.05 mm", "2.08 m"]]
  [[beam.element]]
  role = "director"
  at = "5.9 m"
  diameter = "22 mm"
  length = "9.62 m"
"""


class FakeSession(PlanSession):
    """Reads and rewrites plans for real, keeps the file in memory, makes up every reading."""

    def __init__(self, text: str = PLAN) -> None:
        super().__init__(Path("no-such-folder") / "plan.toml")
        self.file: str | None = text
        self.saved: list[str] = []
        self.drafts: list[str] = []
        self.aside: list[str] = []
        self.history = ""
        self.slow_book = threading.Event()
        self.broken_disk = False
        self.refuse_shorter_than = 0.0
        self.computed = 0
        self.lock = threading.Lock()

    def keep_history(self, text: str) -> None:
        self.history = text

    def load_history(self) -> str:
        return self.history

    def quick_look(self, *, beam: Beam, ground: Ground, frequency: float) -> QuickLook:
        if any(element.length < self.refuse_shorter_than for element in beam.elements):
            message = "an element is shorter than its feed gap"
            raise SolverError(message)
        readings = fake_readings(beam=beam, over_ground=ground.kind != "free space")
        point = min(readings.sweep, key=lambda p: abs(p.frequency - frequency))
        return QuickLook(
            point=point,
            azimuth_pattern=readings.azimuth_pattern,
            over_ground=readings.over_ground,
        )

    def compute(self, *, beam: Beam, ground: Ground) -> BeamReadings:
        with self.lock:
            self.computed += 1
        return fake_readings(beam=beam, over_ground=ground.kind != "free space")

    def waves(self, *, beam: Beam, ground: Ground, frequency: float) -> WavePicture:
        return wave_picture(beam=beam, ground=ground, frequency=frequency)

    def reach(self, plan: Plan, *, number: int, canvas: Canvas):
        self.reached = getattr(self, "reached", 0) + 1
        return fake_reach(palette=canvas.palette, width=canvas.width, title=plan.beams[number].name)

    def work(self, plan: Plan, *, subject: str, number: int, canvas: Canvas) -> WorkSheet:
        return WorkSheet(
            title=f"{subject} of {plan.beams[number].name}",
            blocks=(Words(text=f"Made up for {plan.title}."),),
            notices=(),
        )

    def work_files(self, plan: Plan) -> bytes:
        return b"PK" + plan.title.encode()

    def feed(self, plan: Plan, *, number: int, canvas: Canvas):
        title, groups = plan.beams[number].name, ("match", "line")
        return fake_reach(palette=canvas.palette, width=canvas.width, title=title, groups=groups)

    def tuning(
        self, plan: Plan, *, faults: bool, canvas: Canvas, progress: Callable[[float], None]
    ):
        return fake_reach(palette=canvas.palette, width=canvas.width, title=plan.beams[0].name)

    def feed_touchstone(self, plan: Plan, *, end: str) -> bytes:
        return f"! {end}\n# Hz S RI R 50\n".encode()

    def make_book(self, plan: Plan, *, part: str, on_step: Callable[[float, str], None]) -> bytes:
        on_step(0.0, "the band")
        while self.slow_book.is_set():
            time.sleep(0.01)
            on_step(0.5, "the pages")
        return b"%PDF-1.7 " + plan.title.encode()

    def cut_list_csv(self, plan: Plan) -> bytes:
        return b"element,length\n" + str(len(plan.beams)).encode()

    def plan_view_dxf(self, plan: Plan) -> bytes:
        return b"0\nSECTION\n"

    def load(self) -> str:
        if self.file is None:
            raise FileNotFoundError(2, "No such file or directory")
        return self.file

    def keep_draft(self, text: str) -> str:
        self.drafts.append(text)
        return "no-such-folder/test.unsaved.toml"

    def save(self, text: str, *, expected: str | None, aside: bool = False) -> datetime:
        if self.broken_disk:
            raise OSError(28, "No space left on device")
        if self.file != expected:
            raise SaveConflictError(self.file)
        assert tomllib.loads(text)
        if aside and self.file is not None:
            self.aside.append(self.file)
        self.file = text
        self.saved.append(text)
        return datetime(2024, 5, 6, 12, 3, 5)


def desk_on(path: Path, text: str | None = None, *, library: PlanLibrary | None = None) -> PlanDesk:
    """Put a plan file on the desk; it is written first where a text is given."""
    if text is not None:
        path.write_text(text, encoding="utf-8")
    text = path.read_text(encoding="utf-8")
    return PlanDesk(session=PlanSession(path), name=path.name, text=text, library=library)


def fake_desk(text: str = PLAN) -> PlanDesk:
    """Put a plan on the desk."""
    return PlanDesk(session=FakeSession(text), name="test.toml", text=text)
