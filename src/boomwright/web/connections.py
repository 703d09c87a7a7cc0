"""Connections to the page: so many, and none that says nothing.

The server's own protocol waits for ever for the first word of a connection, and for the end of a
request that was begun; whoever opens some hundred of them would keep everybody else out.
"""

from __future__ import annotations

import asyncio
from typing import Final

from uvicorn.protocols.http.h11_impl import H11Protocol

#: time within which a connection must have asked for something whole [s]
SILENCE: Final = 10.0
#: connections held of one address, and of all addresses but this machine's own
FROM_ONE, FROM_OTHERS = 64, 256


class Connection(H11Protocol):
    """One connection."""

    _seen: object = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Take a connection, or close it when there are too many."""
        super().connection_made(transport)
        own = self.server[0] if self.server else ""
        callers = [_caller(each) for each in self.connections]
        mine = _caller(self)
        others = sum(caller != own for caller in callers)
        if callers.count(mine) > FROM_ONE or (mine != own and others > FROM_OTHERS):
            transport.close()
            return
        self.loop.call_later(SILENCE, self._watch)

    def _watch(self) -> None:
        """Close a connection on which nothing whole was asked since the last look."""
        # One that has become a window's socket is not in the set any more.
        if self not in self.connections or self.transport.is_closing():
            return
        answering = self.cycle is not None and not self.cycle.response_complete
        if not answering and self.cycle is self._seen:
            self.transport.close()
            return
        self._seen = self.cycle
        self.loop.call_later(SILENCE, self._watch)


def _caller(connection: object) -> str:
    """Address of the other end, of a request's connection or a window's socket."""
    client = getattr(connection, "client", None)
    return client[0] if client else ""
