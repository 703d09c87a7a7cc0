"""What there is to say of the day on which a beam goes up."""

from boomwright.report.raising.methods import raising_report

__all__ = ["raising_report"]
