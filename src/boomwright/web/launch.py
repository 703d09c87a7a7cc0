"""Run the page: one server on loopback, until it is stopped."""

from __future__ import annotations

import socket
from collections.abc import Callable
from types import FrameType

import uvicorn
from starlette.applications import Starlette

from boomwright.web.connections import FROM_ONE, Connection
from boomwright.web.edits import MESSAGE_LIMIT


class _Server(uvicorn.Server):
    """A server that says where it is once it listens."""

    def __init__(
        self, config: uvicorn.Config, *, url: str, on_ready: Callable[[str], None]
    ) -> None:
        super().__init__(config)
        self._url = url
        self._on_ready = on_ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, then call back."""
        await super().startup(sockets=sockets)
        if self.started:
            self._on_ready(self._url)

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """End, the edits written, however often that is asked."""
        if not self.should_exit:
            # What is broken off now is broken off on purpose.
            uvicorn.server.logger.setLevel("CRITICAL")
            super().handle_exit(sig, frame)


def serve(
    app: Starlette,
    *,
    host: str = "127.0.0.1",
    port: int = 0,
    on_ready: Callable[[str], None],
    prepared: Callable[[uvicorn.Server], None] = lambda server: None,
) -> None:
    """Serve the page until interrupted.

    Args:
        host: address to listen at; another than loopback must be among the app's hosts
        port: port, or 0 for any free one
        prepared: called with the server before it starts; a caller may keep it to stop it

    Raises:
        OSError: when the port is taken
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    listening = socket.create_server((host, port), family=family)
    # Taken over by every connection. asyncio sets it only where the socket names its protocol;
    # without it the end of an answer waits until the window has acknowledged the beginning.
    listening.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    taken = listening.getsockname()[1]
    shown = f"[{host}]" if ":" in host else host
    config = uvicorn.Config(
        app,
        http=Connection,
        # So many are taken in one go, before any can be turned away.
        backlog=FROM_ONE,
        ws="websockets-sansio",
        ws_max_size=MESSAGE_LIMIT,
        ws_per_message_deflate=False,
        log_level="warning",
        access_log=False,
        server_header=False,
        proxy_headers=False,
        timeout_graceful_shutdown=2,
    )
    url = f"http://{shown}:{taken}/?key={app.state.key}"
    server = _Server(config, url=url, on_ready=on_ready)
    prepared(server)
    with listening:
        server.run(sockets=[listening])
