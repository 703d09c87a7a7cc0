"""How far the long work of a sheet is, and the hand that stops it."""

from __future__ import annotations

from types import TracebackType

from boomwright.web.works import StoppedError


class Fitting:
    """Work under way; entered when it begins, left when it ends."""

    def __init__(self) -> None:
        #: share that is done; None while nothing is under way [-]
        self.share: float | None = None
        self._stopped = False

    def __enter__(self) -> Fitting:
        self.share, self._stopped = 0.0, False
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.share = None

    def stop(self) -> None:
        """Stop the work under way, if there is any."""
        self._stopped = True

    def __call__(self, share: float) -> None:
        """Hear how far the work is.

        Args:
            share: share that is done [-]

        Raises:
            StoppedError: when it is to stop
        """
        self.share = share
        if self._stopped:
            raise StoppedError(
                "stopped before the sweep was fitted", remedy="reload the page to fit it"
            )
