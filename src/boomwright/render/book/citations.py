"""Sources as the book cites them: a number in the text, the list at the end."""

from __future__ import annotations

from collections.abc import Iterable


class Citations:
    """Numbers of sources by their keys, in the order in which the book first names them."""

    def __init__(self) -> None:
        self._numbers: dict[str, int] = {}

    def __call__(self, key: str) -> str:
        """Give what stands behind words that rest on a source."""
        return f" {self.mark(key)}"

    def mark(self, key: str) -> str:
        """Give the number of a source in its brackets."""
        return f"[{self._numbers.setdefault(key, len(self._numbers) + 1)}]"

    def listed(self, further: Iterable[str] = ()) -> tuple[str, ...]:
        """Keys of the list of sources: those cited so far, then further ones in their order."""
        return tuple(dict.fromkeys((*self._numbers, *further)))
