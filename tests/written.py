"""What a reader of metric units sees of a value."""

from boomwright.base.quantity import write


def metric(value):
    return write(value, system="metric")
