"""What is remembered of a plan, forgotten, so that code that a test changes is asked anew."""

from boomwright.plan.resolve.assembly import _balanced, _station
from boomwright.structure import check_structure


def forget_stations():
    for kept in (_balanced, _station, check_structure):
        kept.cache_clear()
