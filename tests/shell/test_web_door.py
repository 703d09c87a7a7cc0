"""Beyond this machine: a password, few tries, a cookie afterwards; without one nobody enters."""

from __future__ import annotations

import base64

import pytest
from starlette.testclient import TestClient

from boomwright.web import LOOPBACK_HOSTS, create_app
from boomwright.web.door import SHUT, TRIES, Door
from fakes.desk import fake_desk

PASSWORD = "a good long password"  # noqa: S105  (made up for the test)
HOME = "http://192.0.2.7:8765"


def basic(password: str) -> dict[str, str]:
    # RFC 7617, section 2: user-id and password joined by a colon, base64.
    return {"authorization": "Basic " + base64.b64encode(f"any:{password}".encode()).decode()}


@pytest.fixture
def client():
    hosts = frozenset({*LOOPBACK_HOSTS, "192.0.2.7"})
    app = create_app(fake_desk(), key="the-key", hosts=hosts, password=PASSWORD)
    return TestClient(app, base_url=HOME)


def test_the_example_of_the_standard_opens():
    # RFC 7617, section 2: user "Aladdin", password "open sesame".
    door = Door(password="open sesame")  # noqa: S106
    assert door.opens("Basic QWxhZGRpbjpvcGVuIHNlc2FtZQ==")


def test_without_a_password_the_answer_asks_for_one(client):
    answer = client.get("/beam")
    assert answer.status_code == 401
    assert answer.headers["www-authenticate"].startswith("Basic ")
    assert "content-security-policy" in answer.headers


def test_the_password_gives_a_cookie_that_opens_everything(client):
    answer = client.get("/beam", headers=basic(PASSWORD))
    assert answer.status_code == 200
    assert answer.url.path == "/beam"
    assert client.get("/beam.json").status_code == 200
    with client.websocket_connect("ws://192.0.2.7:8765/beam/live", headers={"origin": HOME}) as s:
        assert "quick" in s.receive_text()


def test_a_socket_needs_the_cookie_whatever_it_sends(client):
    headers = {"origin": HOME, **basic(PASSWORD)}
    with (
        pytest.raises(Exception, match=r".*"),
        client.websocket_connect("ws://192.0.2.7:8765/beam/live", headers=headers),
    ):
        pass


@pytest.mark.parametrize("header", ["", "Basic", "Basic !!!", "Bearer x", "Basic " + "A" * 9000])
def test_odd_headers_do_not_open(client, header):
    assert client.get("/beam", headers={"authorization": header}).status_code == 401


def test_after_many_wrong_passwords_the_door_stays_shut_for_a_while():
    now = [0.0]
    door = Door(password=PASSWORD, clock=lambda: now[0])
    for _ in range(TRIES):
        assert not door.opens(basic("wrong")["authorization"])
    assert door.shut
    assert not door.opens(basic(PASSWORD)["authorization"])
    now[0] = SHUT + 1.0
    assert door.opens(basic(PASSWORD)["authorization"])


def test_a_foreign_host_is_refused_before_the_password(client):
    headers = {"host": "evil.example", **basic(PASSWORD)}
    assert client.get("/beam", headers=headers).status_code == 421


def test_without_a_password_there_is_no_door():
    assert not Door(password="").opens(basic("")["authorization"])
    app = create_app(fake_desk(), key="the-key")
    client = TestClient(app, base_url="http://127.0.0.1:8765")
    assert client.get("/beam", headers=basic("")).status_code == 403
