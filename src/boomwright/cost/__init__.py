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
    from boomwright.cost.bill import DEFAULT_STOCK, Bill, BillLine, TubeOrder, beam_bill, join_bills
    from boomwright.cost.estimating import (
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
        COLUMNS,
        AskedPrice,
        Price,
        asked_prices,
        blank_prices,
        read_price_tables,
        read_prices,
        with_price,
    )
    from boomwright.cost.services import Services
    from boomwright.cost.station_bill import open_line, parts_bill, services_bill

__getattr__ = on_demand(__name__)
