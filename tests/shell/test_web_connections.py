"""Connections: so many of one address, none that stays silent, and the page answers meanwhile."""

from __future__ import annotations

import http.client
import socket
import time
from contextlib import suppress
from urllib.parse import urlsplit

import pytest

from boomwright.web import connections
from fakes.browser import served
from fakes.desk import fake_desk
from fakes.special_files import within

UNFINISHED = (b"", b"GET /beam HTTP/1.1\r\nHost: ", b"POST /measured.json HTTP/1.1\r\nHo")


@pytest.fixture
def home(monkeypatch):
    monkeypatch.setattr(connections, "SILENCE", 0.3)
    monkeypatch.setattr(connections, "FROM_ONE", 12)
    with served(fake_desk()) as home:
        yield urlsplit(home)


@pytest.fixture
def silent(home):
    """Opens connections that say something unfinished."""
    links = []

    def open_one(said=b""):
        links.append(socket.create_connection((home.hostname, home.port), timeout=30.0))
        links[-1].sendall(said)
        return links[-1]

    yield open_one
    for link in links:
        link.close()


def closed(link):
    """Wait until the other end is closed; what it said before does not count."""
    with within(30.0):
        while link.recv(4096):
            pass
    return True


def status(home):
    link = http.client.HTTPConnection(home.hostname, home.port, timeout=30.0)
    link.request("GET", f"/?{home.query}")
    found = link.getresponse().status
    link.close()
    return found


@pytest.mark.parametrize("said", UNFINISHED)
def test_a_connection_on_which_nothing_whole_is_asked_is_closed(home, silent, said):
    assert closed(silent(said))
    assert status(home) == 303


def test_words_that_trickle_in_do_not_keep_a_connection_open(silent):
    link = silent(b"GET /beam HTTP/1.1\r\n")
    with within(30.0), suppress(OSError):
        while True:
            link.sendall(b"X: y\r\n")
            time.sleep(0.02)


def test_a_second_request_that_never_ends_is_closed_too(home, silent):
    request = f"GET /?{home.query} HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\nGET /b"
    assert closed(silent(request.encode()))


def test_more_than_the_most_are_closed_at_once_and_the_page_answers_when_they_are_gone(
    home, silent
):
    links = [silent() for _ in range(40)]
    for link in links[20:]:
        assert closed(link)
    for link in links[:20]:
        closed(link)
    assert status(home) == 303
