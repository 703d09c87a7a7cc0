"""What there is to say of a search for lengths and spacings."""

from boomwright.report.improve.bands import bands_report
from boomwright.report.improve.search import found_report, improve_report
from boomwright.report.improve.trade_off import trade_off_picture, trade_off_report
