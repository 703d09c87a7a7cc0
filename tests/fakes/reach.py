"""What the Reach sheet shows, drawn for real from made-up figures."""

from __future__ import annotations

import numpy as np

from boomwright import charts
from boomwright.base import Notice
from boomwright.charts import ReadingTable, ShownPicture, ShownSubject, ShownTable


def fake_reach(*, palette, width, title="Reach of a beam", groups=("height", "people")):
    """Make a subject with one chart, one map, one table and a caution."""
    angle = np.arange(0.0, 91.0, 5.0)
    gain = 12.0 - 0.01 * (angle - 20.0) ** 2
    chart = charts.line_chart(
        kind="plain-antennas", title="Against plain antennas", description="12 dBi at 20 degrees.",
        x=angle, curves=[("beam", gain)], x_label="elevation, degrees", y_label="gain, dBi",
        x_name="elevation", palette=palette, width=width,
    )  # fmt: skip
    side = np.linspace(-10.0, 10.0, 9)
    shares = 0.9 * np.exp(-(side[:, None] ** 2 + side[None, :] ** 2) / 40.0)
    people = charts.people_map(
        plane="level", across=side, up=side, share=shares, limit_name="the limit",
        places=[("terrace", 4.0, 0.0)], palette=palette, width=width,
    )  # fmt: skip
    table = ReadingTable(header=("elevation", "dBi"), rows=(("20", "12.0"),))
    behind = ShownTable(name="behind", caption="Numbers", table=table)
    return ShownSubject(
        title=title,
        facts=(("Take-off angle", "20.0°"),),
        pictures=tuple(
            ShownPicture(
                name=name,
                words=words,
                svg=svg,
                caption="A sentence.",
                behind=behind,
                units=width,
                group=group,
            )
            for name, words, svg, group in (
                ("plain-antennas", "Gain against plain antennas", chart, groups[0]),
                ("people-level", "Fields at head height", people, groups[1]),
            )
        ),
        tables=(
            ShownTable(
                name="places", caption="Places", table=table, note="A note.", group="people"
            ),
        ),
        notices=(
            Notice(code="reach.exposure-caution", severity="caution", text="Fields can harm."),
        ),
    )
