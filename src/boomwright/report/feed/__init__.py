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
        pictures=feed_pictures(each),
        tables=tables,
        brief=brief,
        next=steps,
        notices=each.notices,
    )
