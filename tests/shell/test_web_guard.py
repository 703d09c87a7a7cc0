"""Who may talk to the page: this machine's browser with this run's key, and nobody else."""

from __future__ import annotations

import pytest
from starlette.testclient import TestClient
from starlette.websockets import WebSocketDisconnect

from boomwright.web import create_app
from boomwright.web.guard import HEADERS, cookie_name
from fakes.client import HOME, KEY
from fakes.desk import fake_desk

SOCKET = "ws://127.0.0.1:8765"
PLACES = ["/", "/beam", "/beam.json", "/plan.toml", "/book.pdf", "/static/page.css", "/none"]


def make(*, known: bool = True, **more) -> TestClient:
    cookies = {cookie_name(KEY): KEY} if known else {}
    app = create_app(fake_desk(), key=KEY)
    return TestClient(app, base_url=HOME, cookies=cookies, follow_redirects=False, **more)


@pytest.mark.parametrize("place", PLACES)
def test_without_the_key_nothing_is_given_away(place):
    answer = make(known=False).get(place)
    assert answer.status_code == 403
    assert "Three elements" not in answer.text


@pytest.mark.parametrize("key", ["", "wrong", KEY + "x", KEY[:-1], "é"])
def test_a_wrong_key_is_refused(key):
    client = make(known=False)
    assert client.get("/", params={"key": key}).status_code == 403
    assert "set-cookie" not in client.get("/", params={"key": key}).headers


def test_the_key_leaves_the_address_for_a_cookie():
    client = make(known=False)
    answer = client.get("/", params={"key": KEY})
    assert answer.status_code == 303
    assert answer.headers["location"] == "/"
    cookie = answer.headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=Strict" in cookie
    assert client.get("/beam").status_code == 200


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:8765", "127.0.0.1.evil.example", "", "127.0.0.1@evil"]
)
def test_a_foreign_host_name_is_refused(host):
    for place in PLACES:
        assert make().get(place, headers={"host": host}).status_code == 421


@pytest.mark.parametrize("host", ["127.0.0.1:8765", "localhost:8765", "[::1]:8765", "localhost"])
def test_names_of_this_machine_are_taken(host):
    assert make().get("/beam.json", headers={"host": host}).status_code in {200, 403}
    app_client = make()
    app_client.headers["cookie"] = f"{cookie_name(KEY)}={KEY}"
    assert app_client.get("/beam.json", headers={"host": host}).status_code == 200


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "http://127.0.0.1:9999"},
        {"origin": "https://127.0.0.1:8765"},
        {"sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
        {"sec-fetch-site": "cross-site", "sec-fetch-dest": "image"},
    ],
)
def test_requests_from_other_sites_are_refused(headers):
    assert make().get("/beam.json", headers=headers).status_code == 403


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"])
def test_only_reading_is_answered(method):
    answer = make().request(method, "/beam")
    assert answer.status_code == 405
    assert answer.headers["allow"] == "GET, HEAD"


def test_a_body_is_refused():
    answer = make().request("GET", "/beam", content=b"x" * 100_000)
    assert answer.status_code == 413


@pytest.mark.parametrize("place", [*PLACES, "/static/none"])
@pytest.mark.parametrize("known", [True, False])
def test_every_answer_carries_the_policy(place, known):
    answer = make(known=known).get(place)
    for name, value in HEADERS.items():
        assert answer.headers[name] == value
    policy = answer.headers["content-security-policy"]
    assert "unsafe" not in policy
    assert "default-src 'none'" in policy


@pytest.mark.parametrize(
    "place",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static/%2fetc%2fpasswd",
        "/static/page.css%00",
        "/static/C:%5Cboot.ini",
        "/static/",
        "/templates/beam.html",
    ],
)
def test_no_path_reaches_the_disk(place):
    assert make().get(place).status_code == 404


def refused(client, place="/beam/live", headers=None):
    try:
        with client.websocket_connect(SOCKET + place, headers=dict(headers or {})) as socket:
            socket.receive_text()
    except WebSocketDisconnect as error:
        return error.code
    return None


def test_a_socket_needs_key_host_and_own_origin():
    own = {"origin": HOME}
    assert refused(make(known=False), headers=own) == 1008
    assert refused(make()) == 1008
    assert refused(make(), headers={"origin": "http://evil.example"}) == 1008
    assert refused(make(), headers={"origin": "http://127.0.0.1:1"}) == 1008
    assert refused(make(), headers={**own, "host": "evil.example:8765"}) == 1008
    assert refused(make(), place="/beam/live?key=" + KEY, headers={"origin": "null"}) == 1008
    assert refused(make(), headers=own) is None


def test_a_random_key_is_made_and_differs():
    first, second = create_app(fake_desk()), create_app(fake_desk())
    assert len(first.state.key) >= 32
    assert first.state.key != second.state.key
    assert first.state.key not in cookie_name(first.state.key)
