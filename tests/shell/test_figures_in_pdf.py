"""The pictures go through the PDF engine whole, with their text as text."""

from __future__ import annotations

import io
from pathlib import Path

import pypdf
import pytest
import typst

from boomwright import charts
from boomwright.charts import LIGHT, Palette
from boomwright.charts.palette import DARK
from fakes.readings import fake_readings, fake_station

READINGS = fake_readings()
PICTURES = {
    "plan": lambda p: charts.plan_view(
        beam=READINGS.beam, station=fake_station(READINGS.beam), palette=p
    ),
    "detail": lambda p: charts.element_detail(beam=READINGS.beam, index=1, palette=p),
    "azimuth": lambda p: charts.azimuth_pattern(cuts=[READINGS.azimuth_pattern], palette=p),
    "elevation": lambda p: charts.elevation_pattern(
        cuts=[READINGS.over_ground.elevation_pattern], palette=p
    ),
    "swr": lambda p: charts.sweep_chart(readings=READINGS, palette=p),
    "impedance": lambda p: charts.impedance_chart(readings=READINGS, palette=p),
    "gain": lambda p: charts.gain_chart(readings=READINGS, palette=p),
    "currents": lambda p: charts.current_chart(currents=READINGS.currents, palette=p),
    "phasors": lambda p: charts.current_phasors(currents=READINGS.currents, palette=p),
    "lobes": lambda p: charts.lobe_chart(over_ground=READINGS.over_ground, palette=p),
}
WANTED = (
    "plan view", "half 5400", "director 1", "Ø 25.4 mm", "from the boom centre", "heading",
    "0 dB = 13.2 dBi", "ground", "SWR against 50 ohm", "design 14.175 MHz", "impedance, ohm",
    "front-to-rear", "current, A", "0.620 A", "13.2 dBi at 18°",
)  # fmt: skip


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_text_in_the_pdf_is_text(tmp_path: Path, palette: Palette) -> None:
    lines = ["#set page(width: 21cm, height: auto)"]
    for name, draw in PICTURES.items():
        (tmp_path / f"{name}.svg").write_text(draw(palette), encoding="utf-8")
        lines.append(f'#image("{name}.svg", width: 100%)')
    source = tmp_path / "sheet.typ"
    source.write_text("\n".join(lines), encoding="utf-8")
    pdf = pypdf.PdfReader(io.BytesIO(typst.compile(str(source))))
    written = "\n".join(page.extract_text() for page in pdf.pages)
    missing = [wanted for wanted in WANTED if wanted not in written]
    assert not missing
