"""The owner's price list beside the plan: what to ask for, a price typed, a list given."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Final

from boomwright.base import Fault, PlanError, UnitSystem
from boomwright.base.records import dataclass
from boomwright.session.files import PlanFolder, day_of_today, found_text, refuse_name, save_text

if TYPE_CHECKING:
    from boomwright.cost import AskedPrice
    from boomwright.plan import Plan

_PLACE: Final = "prices.list"
_AMOUNTS: Final = ("low", "likely", "high")


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A change of a file beside the plan."""

    name: str  #: name of the file
    before: str  #: its text before; empty when there was no such file
    after: str  #: its text after; empty when nothing was in it

    def back(self) -> Beside:
        """The change that takes this one back."""
        return Beside(name=self.name, before=self.after, after=self.before)


class OwnPriceList:
    """The price list that a plan names, in its folder.

    Args:
        files: the folder of the plan
    """

    def __init__(self, files: PlanFolder) -> None:
        self._files = files

    def _text(self, name: str) -> str | None:
        return found_text(self._files.find(name, place=_PLACE))

    def asked(self, plan: Plan, *, system: UnitSystem) -> tuple[AskedPrice, ...]:
        """Ask for the price of every line of the bill; what the list knows stands in its row.

        Raises:
            PlanError: with every fault of the price list
            OSError: when it cannot be read
        """
        from boomwright.study.cost import asked_price_rows

        return asked_price_rows(plan, files=self._files, system=system)

    def typed(self, plan: Plan, typed: Mapping[str, str]) -> Beside:
        """Write a price into the text of the list; the file is not touched yet.

        Args:
            typed: cells of its row by name; low and high are the likely one where left empty, and
                the day is today

        Raises:
            PlanError: the plan names no list of comma-separated text, or the row is refused
        """
        from boomwright.cost import with_price

        prices = plan.prices
        if prices is None or not prices.price_list.lower().endswith(".csv"):
            fault = Fault(
                path=_PLACE,
                message="the plan names no price list that can be typed into",
                remedy="name one that ends in .csv, such as prices.csv",
            )
            raise PlanError((fault,))
        name = prices.price_list
        row = {**typed, "currency": typed.get("currency") or prices.currency}
        waits = not any(typed.get(key) for key in _AMOUNTS)
        for key in _AMOUNTS:
            row[key] = typed.get(key) or typed.get("likely", "")
        row["dated"] = typed.get("dated") or ("" if waits else day_of_today())
        before = self._text(name) or ""
        return Beside(name=name, before=before, after=with_price(before, row, source=name))

    def given(self, name: str, content: bytes) -> tuple[Beside, str]:
        """Take a price list that was given to the page; the file is not touched yet.

        Returns:
            what would be written, and the currency of its prices

        Raises:
            FileRefusedError: when the name is none taken here
            PlanError: with every fault of the list
        """
        from boomwright.study.cost import read_price_list

        refuse_name(name, ".csv")
        found = read_price_list(content, name=name).prices
        after = content.decode("utf-8-sig", errors="replace")
        change = Beside(name=name, before=self._text(name) or "", after=after)
        return change, found[0].currency if found else ""

    def write(self, change: Beside) -> None:
        """Write the file; the previous one is kept beside it.

        Raises:
            PlanError: when the file holds something else than the change began with
            OSError: when it cannot be written
        """
        from boomwright.cost import COLUMNS

        path = self._files.find(change.name, place=_PLACE)
        now = found_text(path)
        # An empty list still names its columns, so that it can be read.
        empty = ",".join(COLUMNS) + "\n"
        if ("" if now == empty else now or "") != ("" if change.before == empty else change.before):
            fault = Fault(
                path=_PLACE,
                message=f"{change.name} was changed elsewhere meanwhile",
                remedy="it was left as it is; look at it, then type the price again",
            )
            raise PlanError((fault,))
        save_text(path, change.after or empty, expected=now)
