"""The door for others, when the page is served beyond this machine: one password, few tries."""

from __future__ import annotations

import base64
import binascii
import hmac
import time
from collections.abc import Callable

#: wrong passwords taken from anyone before the door stays shut for a while
TRIES = 10
#: how long it stays shut [s]
SHUT = 60.0


class Door:
    """Lets in whoever knows the password.

    Parameters
    ----------
    password
        the password; empty keeps the door shut
    clock
        tells the time [s]
    """

    def __init__(self, *, password: str, clock: Callable[[], float] = time.monotonic) -> None:
        self._password = password
        self._clock = clock
        self._wrong = 0
        self._until = 0.0

    @property
    def there(self) -> bool:
        """Whether there is a door at all."""
        return bool(self._password)

    @property
    def shut(self) -> bool:
        """Whether it is shut after too many wrong passwords."""
        return self._clock() < self._until

    def opens(self, header: str) -> bool:
        """Try the password of an Authorization header {rfc-7617}."""
        if not self._password or self.shut:
            return False
        kind, _, coded = header.partition(" ")
        if kind.lower() != "basic":
            return False
        try:
            given = base64.b64decode(coded, validate=True).partition(b":")[2]
        except (binascii.Error, ValueError):
            given = b""
        if hmac.compare_digest(given, self._password.encode()):
            self._wrong = 0
            return True
        self._wrong += 1
        if self._wrong >= TRIES:
            self._wrong, self._until = 0, self._clock() + SHUT
        return False
