"""What there is to say of a search for lengths and spacings."""

from boomwright.report.improve.bands import bands_report as bands_report
from boomwright.report.improve.search import found_report as found_report
from boomwright.report.improve.search import improve_report as improve_report
from boomwright.report.improve.trade_off import trade_off_picture as trade_off_picture
from boomwright.report.improve.trade_off import trade_off_report as trade_off_report
