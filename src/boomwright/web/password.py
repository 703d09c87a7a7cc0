"""The password for others, when the page is served beyond this machine: one of it, few tries.

Wrong passwords lock out the address they came from, longer each time, and for nobody
else. Never for this machine itself: whoever sits at it could as well edit the plan.
"""

from __future__ import annotations

import base64
import binascii
import hmac
import ipaddress
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

#: wrong passwords taken from one address before it is locked out
TRIES = 10
#: how long it is locked out the first time, and at most; each time twice as long [s]
LOCKED, LONGEST = 60.0, 3600.0
#: addresses remembered
_MOST_ADDRESSES = 1000


@dataclass(slots=True)
class _Tried:
    """Wrong passwords from one address since it was locked out, for how long, till when."""

    wrong: int = 0
    locked_for: float = LOCKED  #: how long it is locked out the next time [s]
    until: float = 0.0  #: time at which it may try again [s]


class PasswordCheck:
    """Lets in whoever knows the password.

    Args:
        password: the password; empty lets nobody in
        clock: tells the time [s]
    """

    def __init__(self, *, password: str, clock: Callable[[], float] = time.monotonic) -> None:
        self._password = password
        self._clock = clock
        self._tried: OrderedDict[str, _Tried] = OrderedDict()

    @property
    def there(self) -> bool:
        """Whether there is a password at all."""
        return bool(self._password)

    def locked(self, address: str) -> bool:
        """Tell whether an address is locked out after too many wrong passwords.

        Args:
            address: address that asks; empty for this machine
        """
        tried = self._tried.get(_network(address))
        return tried is not None and self._clock() < tried.until

    def opens(self, header: str, *, address: str) -> bool:
        """Try the password of an Authorization header {rfc-7617}.

        Args:
            address: address that asks; empty for this machine, which is never locked out
        """
        if not self._password or self.locked(address):
            return False
        kind, _, coded = header.partition(" ")
        if kind.lower() != "basic":
            return False
        try:
            given = base64.b64decode(coded, validate=True).partition(b":")[2]
        except (binascii.Error, ValueError):
            given = b""
        if hmac.compare_digest(given, self._password.encode()):
            self._tried.pop(_network(address), None)
            return True
        if address:
            self._note(_network(address))
        return False

    def _note(self, network: str) -> None:
        tried = self._tried.setdefault(network, _Tried())
        self._tried.move_to_end(network)
        while len(self._tried) > _MOST_ADDRESSES:
            self._tried.popitem(last=False)
        tried.wrong += 1
        if tried.wrong >= TRIES:
            tried.wrong, tried.until = 0, self._clock() + tried.locked_for
            tried.locked_for = min(2.0 * tried.locked_for, LONGEST)


def _network(address: str) -> str:
    """Name who an address belongs to: of IPv6 one subscriber has 64 bits at least {rfc-6177}."""
    try:
        found = ipaddress.ip_address(address.partition("%")[0])
    except ValueError:
        return address
    if isinstance(found, ipaddress.IPv6Address) and found.ipv4_mapped is None:
        return str(ipaddress.IPv6Network((found, 64), strict=False))
    return address


def asking_address(client: str, *, server: str) -> str:
    """Name who asks, for the check; empty for this machine itself.

    Args:
        client: address of the other end
        server: address it was reached at
    """
    try:
        here = ipaddress.ip_address(client.partition("%")[0]).is_loopback
    except ValueError:
        here = False
    return "" if here or client == server else client
