"""What there is to say of match, line, choke and power."""

from boomwright.parts import Bar
from boomwright.plan.resolve import station_assembly
from boomwright.report.feed.answer import feed_answer
from boomwright.report.feed.pictures import feed_pictures
from boomwright.report.feed.tables import feed_brief, feed_tables
from boomwright.report.model import Report
from boomwright.study.feed_parts.results import BeamFeed, FeedResult


def feed_report(result: FeedResult, *, number: int) -> Report:
    """Say everything there is to say of one beam's feed."""
    each = result.beams[number]
    tables = feed_tables(result, each)
    brief, steps = feed_brief(each, tables)
    return Report(
        subject="feed",
        title=f"Feed of {each.beam.name}",
        answer=feed_answer(result, each),
        pictures=feed_pictures(each, rearward=_rearward(result, each)),
        tables=tables,
        brief=brief,
        next=steps,
        notices=each.notices,
    )


def _rearward(result: FeedResult, each: BeamFeed) -> bool:
    """Whether the parts of the plan have the rods of a hairpin run towards the rear of the boom."""
    if each.beam.feed.kind != "hairpin":
        return False
    rods = (
        solid
        for part in station_assembly(result.plan).of(each.beam.name, "match")
        for solid in part.solids
        if isinstance(solid, Bar)
    )
    return any(bar.end[0] < bar.start[0] for bar in rods)
