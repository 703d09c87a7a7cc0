"""Cost: what to buy and hire, cut from stock lengths, priced from the owner's own dated list.

:func:`beam_bill` reads the parts of a beam: pieces to saw (``pieces``), packed into stock lengths
with a proven bound (``packing``), hardware and wire; ``station_bill`` has support, line and
services; :func:`join_bills` puts them together. Every :class:`BillLine` says what drives it.

:func:`read_prices` reads the price list; :func:`estimate` gives a three-point :class:`Estimate` in
which a line without a price is shown as such and never counts as zero, and an old price is
flagged against the day given; :func:`sensitivities` estimates again with one choice changed.
No prices are known here.
"""

from boomwright.cost.bill import (
    DEFAULT_STOCK,
    Bill,
    BillLine,
    TubeOrder,
    beam_bill,
    join_bills,
)
from boomwright.cost.estimate import (
    Amounts,
    BudgetVerdict,
    Estimate,
    EstimateLine,
    Sensitivity,
    estimate,
    in_currency,
    sensitivities,
)
from boomwright.cost.packing import Bar
from boomwright.cost.pieces import TubePiece
from boomwright.cost.prices import (
    Price,
    blank_prices,
    read_price_tables,
    read_prices,
)
from boomwright.cost.station_bill import (
    Services,
    open_line,
    parts_bill,
    services_bill,
)

__all__ = [
    "DEFAULT_STOCK",
    "Amounts",
    "Bar",
    "Bill",
    "BillLine",
    "BudgetVerdict",
    "Estimate",
    "EstimateLine",
    "Price",
    "Sensitivity",
    "Services",
    "TubeOrder",
    "TubePiece",
    "beam_bill",
    "blank_prices",
    "estimate",
    "in_currency",
    "join_bills",
    "open_line",
    "parts_bill",
    "read_price_tables",
    "read_prices",
    "sensitivities",
    "services_bill",
]
