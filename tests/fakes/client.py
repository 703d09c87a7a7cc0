"""The page asked in process, by one who knows its key."""

from __future__ import annotations

import json
from typing import Any

from starlette.testclient import TestClient, WebSocketTestSession

from boomwright.session.plan_library import PlanLibrary
from boomwright.web import PlanDesk, create_app
from boomwright.web.guard import cookie_name

KEY = "a-key-for-tests"
HOME = "http://127.0.0.1:8765"


def client_of(
    desk: PlanDesk | None,
    *,
    library: PlanLibrary | None = None,
    cookies: dict[str, str] | None = None,
    **more: Any,
) -> TestClient:
    """Ask for the pages of a desk."""
    app = create_app(desk, library=library, key=KEY)
    known = {cookie_name(KEY): KEY, **(cookies or {})}
    return TestClient(app, base_url=HOME, cookies=known, **more)


def live(client: TestClient, sheet: str = "beam") -> WebSocketTestSession:
    """Open the socket of a sheet."""
    place = f"{HOME.replace('http', 'ws')}/{sheet}/live"
    return client.websocket_connect(place, headers={"origin": HOME})


class Window:
    """A window's socket with its numbers."""

    def __init__(self, client: TestClient, sheet: str = "beam") -> None:
        self.opened = live(client, sheet)
        self.seq = 0

    def __enter__(self) -> Window:
        self.socket = self.opened.__enter__()
        return self

    def __exit__(self, *error: Any) -> None:
        self.opened.__exit__(*error)

    def tell(self, **edit: Any) -> None:
        self.seq += 1
        self.socket.send_text(json.dumps({"seq": self.seq, "edit": edit}))

    def until(self, *kinds: str) -> dict[str, Any]:
        """Wait for a message of one of these kinds."""
        for _ in range(200):
            message = json.loads(self.socket.receive_text())
            if message["kind"] in kinds:
                return message
        raise AssertionError(kinds)
