"""Beyond this machine: a password, few tries, a cookie afterwards; without one nobody enters."""

from __future__ import annotations

import base64

import pytest
from starlette.testclient import TestClient

from boomwright.web import LOOPBACK_HOSTS, create_app
from boomwright.web.password import LOCKED, TRIES, PasswordCheck, asking_address
from fakes.desk import fake_desk

PASSWORD = "a good long password"  # noqa: S105  (made up for the test)
HOME = "http://192.0.2.7:8765"
OTHER = "192.0.2.9"


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
    door = PasswordCheck(password="open sesame")  # noqa: S106
    assert door.opens("Basic QWxhZGRpbjpvcGVuIHNlc2FtZQ==", address=OTHER)


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


def fail(door, address, times=TRIES):
    for _ in range(times):
        assert not door.opens(basic("wrong")["authorization"], address=address)


def test_after_many_wrong_passwords_the_door_stays_shut_for_that_address_and_no_other():
    now = [0.0]
    door = PasswordCheck(password=PASSWORD, clock=lambda: now[0])
    fail(door, OTHER)
    right = basic(PASSWORD)["authorization"]
    assert door.locked(OTHER)
    assert not door.opens(right, address=OTHER)
    assert door.opens(right, address="192.0.2.10")
    now[0] = LOCKED + 1.0
    assert door.opens(right, address=OTHER)


def test_each_time_it_stays_shut_for_longer_up_to_an_hour():
    now = [0.0]
    door = PasswordCheck(password=PASSWORD, clock=lambda: now[0])
    waits = []
    for _ in range(9):
        fail(door, OTHER)
        begun = now[0]
        while door.locked(OTHER):
            now[0] += 1.0
        waits.append(now[0] - begun)
    assert waits == [60, 120, 240, 480, 960, 1920, 3600, 3600, 3600]


@pytest.mark.parametrize(
    ("client", "server"),
    [("127.0.0.1", "192.0.2.7"), ("::1", "fd00::7"), ("192.0.2.7", "192.0.2.7")],
)
def test_the_owner_on_the_machine_itself_is_never_locked_out(client, server):
    door = PasswordCheck(password=PASSWORD)
    address = asking_address(client, server=server)
    fail(door, address, times=5 * TRIES)
    assert door.opens(basic(PASSWORD)["authorization"], address=address)


def test_a_subscriber_with_many_addresses_counts_once():
    # RFC 6177: an end site has a /64 at least.
    door = PasswordCheck(password=PASSWORD)
    for number in range(TRIES):
        fail(door, f"2001:db8:0:1::{number + 1:x}", times=1)
    assert door.locked("2001:db8:0:1:ffff::1")
    assert not door.locked("2001:db8:0:2::1")


def test_no_more_addresses_are_remembered_than_memory_bears():
    door = PasswordCheck(password=PASSWORD)
    for number in range(3000):
        fail(door, f"198.51.{number // 250}.{number % 250}", times=1)
    assert len(door._tried) <= 1000


def test_the_page_locks_out_who_guesses_and_nobody_else():
    hosts = frozenset({*LOOPBACK_HOSTS, "192.0.2.7"})
    app = create_app(fake_desk(), key="the-key", hosts=hosts, password=PASSWORD)
    guessing, other, owner = (
        TestClient(app, base_url=HOME, client=(address, 5000))
        for address in (OTHER, "192.0.2.10", "127.0.0.1")
    )
    tried = {}
    for client in (guessing, owner):
        tried[client] = [
            client.get("/beam", headers=basic("wrong")).status_code for _ in range(TRIES)
        ]
    assert tried[guessing] == [401] * (TRIES - 1) + [429]
    assert tried[owner] == [401] * TRIES
    refused = guessing.get("/beam.json", headers=basic(PASSWORD))
    assert refused.status_code == 429
    assert "from your address" in refused.json()["error"]["message"]
    for client in (other, owner):
        assert client.get("/beam", headers=basic(PASSWORD)).status_code == 200
    # Whoever holds the printed address is let in whatever the door says.
    key = guessing.get("/", params={"key": "the-key"}, follow_redirects=False)
    assert key.status_code == 303


def test_a_foreign_host_is_refused_before_the_password(client):
    headers = {"host": "evil.example", **basic(PASSWORD)}
    assert client.get("/beam", headers=headers).status_code == 421


def test_without_a_password_there_is_no_door():
    assert not PasswordCheck(password="").opens(basic("")["authorization"], address=OTHER)
    app = create_app(fake_desk(), key="the-key")
    client = TestClient(app, base_url="http://127.0.0.1:8765")
    assert client.get("/beam", headers=basic("")).status_code == 403
