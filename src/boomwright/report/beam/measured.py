"""What the owner will measure of a beam, in single figures: the first ones shown anywhere."""

from __future__ import annotations

from boomwright.base.quantity import Quantity, Value, phrase
from boomwright.report.model import Fact
from boomwright.report.wording import clean
from boomwright.study.feed_parts.results import AsMeasured, NotMeasured


def measured_words(measured: AsMeasured | NotMeasured) -> Value:
    """Say what the figures stand for: match, height, ground, neighbours, line."""
    if isinstance(measured, NotMeasured):
        return phrase("Match not computed: {why}", why=measured.refusal)
    beam, ground, line = measured.beam, measured.ground, measured.line
    height = Quantity(beam.height, "span")
    over: Value = "in free space"
    if ground.kind != "free space":
        name = "perfect" if ground.kind == "perfect" else clean(ground.name) or "its"
        over = phrase("boom {height} over {ground} ground", height=height, ground=name)
    near = ", ".join(clean(other.name) for other in beam.neighbours)
    at: Value = "at the match, because the plan has no line"
    if line is not None:
        at = phrase(
            "at the radio, through {length} of {line}",
            length=Quantity(line.length, "span"),
            line=clean(line.line.name),
        )
    return phrase(
        "As measured: {kind}{proposed}, {over}{near}; SWR {at}",
        kind=clean(measured.match.kind),
        proposed=" with the proposed dimensions" if measured.proposed else "",
        over=over,
        near=f", beside {near}" if near else "",
        at=at,
    )


def measured_facts(measured: AsMeasured) -> tuple[Fact, ...]:
    """Pick the four figures that the owner will measure."""
    worst, design = measured.swr_worst[0], measured.swr_design
    lobe: Value = "none (free space)"
    gain = "Gain, free space, matched"
    if measured.take_off_deg is not None:
        lobe, gain = Quantity(measured.take_off_deg, "angle"), "Gain at the take-off angle"
    return (
        Fact(
            label="SWR as measured, worst",
            value=phrase(
                "{worst}, {design} at design",
                worst=Quantity(worst, "swr"),
                design=Quantity(design, "swr"),
            ),
        ),
        Fact(
            label="Front-to-rear, worst in band",
            value=Quantity(measured.front_to_rear_worst[0], "ratio"),
        ),
        Fact(label=gain, value=Quantity(measured.gain_dbi, "gain")),
        Fact(label="Take-off angle", value=lobe),
    )


def measured_line(measured: AsMeasured | NotMeasured) -> Value:
    """Say the four figures in one line, or why there are none."""
    if isinstance(measured, NotMeasured):
        return measured_words(measured)
    lobe: Value = "in free space"
    if measured.take_off_deg is not None:
        lobe = phrase("at {angle}", angle=Quantity(measured.take_off_deg, "angle"))
    return phrase(
        "SWR {worst} worst, {design} at design; front-to-rear {rear} worst; {gain} {lobe}",
        worst=Quantity(measured.swr_worst[0], "swr"),
        design=Quantity(measured.swr_design, "swr"),
        rear=Quantity(measured.front_to_rear_worst[0], "ratio"),
        gain=Quantity(measured.gain_dbi, "gain"),
        lobe=lobe,
    )
