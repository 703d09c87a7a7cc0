"""Cost: what to buy and hire, cut from stock lengths, priced from the owner's own dated list.

:func:`beam_bill` reads the parts of a beam: pieces to saw (``pieces``), packed into stock lengths
with a proven bound (``packing``), hardware and wire; ``station_bill`` has support, line and
services; :func:`join_bills` puts them together. Every :class:`BillLine` says what drives it.

:func:`read_prices` reads the price list; :func:`estimate` gives a three-point :class:`Estimate` in
which a line without a price is shown as such and never counts as zero, and an old price is
flagged against the day given; :func:`sensitivities` estimates again with one choice changed.
No prices are known here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from boomwright.base.faces import on_demand

if TYPE_CHECKING:
    from boomwright.cost.bill import DEFAULT_STOCK as DEFAULT_STOCK
    from boomwright.cost.bill import Bill as Bill
    from boomwright.cost.bill import BillLine as BillLine
    from boomwright.cost.bill import TubeOrder as TubeOrder
    from boomwright.cost.bill import beam_bill as beam_bill
    from boomwright.cost.bill import join_bills as join_bills
    from boomwright.cost.estimating import Amounts as Amounts
    from boomwright.cost.estimating import BudgetVerdict as BudgetVerdict
    from boomwright.cost.estimating import Estimate as Estimate
    from boomwright.cost.estimating import EstimateLine as EstimateLine
    from boomwright.cost.estimating import Sensitivity as Sensitivity
    from boomwright.cost.estimating import estimate as estimate
    from boomwright.cost.estimating import in_currency as in_currency
    from boomwright.cost.estimating import sensitivities as sensitivities
    from boomwright.cost.packing import Bar as Bar
    from boomwright.cost.pieces import TubePiece as TubePiece
    from boomwright.cost.prices import COLUMNS as COLUMNS
    from boomwright.cost.prices import AskedPrice as AskedPrice
    from boomwright.cost.prices import Price as Price
    from boomwright.cost.prices import asked_prices as asked_prices
    from boomwright.cost.prices import blank_prices as blank_prices
    from boomwright.cost.prices import read_price_tables as read_price_tables
    from boomwright.cost.prices import read_prices as read_prices
    from boomwright.cost.prices import with_price as with_price
    from boomwright.cost.services import Services as Services
    from boomwright.cost.station_bill import open_line as open_line
    from boomwright.cost.station_bill import parts_bill as parts_bill
    from boomwright.cost.station_bill import services_bill as services_bill

__getattr__ = on_demand(
    __name__,
    {
        "bill": "DEFAULT_STOCK Bill BillLine TubeOrder beam_bill join_bills",
        "estimating": "Amounts BudgetVerdict Estimate EstimateLine Sensitivity estimate "
        "in_currency sensitivities",
        "packing": "Bar",
        "pieces": "TubePiece",
        "prices": "COLUMNS AskedPrice Price asked_prices blank_prices read_price_tables "
        "read_prices with_price",
        "services": "Services",
        "station_bill": "open_line parts_bill services_bill",
    },
)
