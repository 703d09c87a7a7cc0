"""What there is to say of what to buy and hire, and of what it costs."""

from boomwright.report.cost.bill import cost_report

__all__ = ["cost_report"]
