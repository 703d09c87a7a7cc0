"""The door for others, when the page is served beyond this machine: one password, few tries.

Wrong passwords shut the door for the address they came from, longer each time, and for nobody
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

#: wrong passwords taken from one address before the door stays shut for it
TRIES = 10
#: how long it stays shut the first time, and at most; each time twice as long [s]
SHUT, LONGEST = 60.0, 3600.0
#: addresses remembered
_MOST_ADDRESSES = 1000


@dataclass(slots=True)
class _Tried:
    """What came from one address: wrong passwords since it was shut, for how long, till when."""

    wrong: int = 0
    shut_for: float = SHUT  #: how long the door stays shut the next time [s]
    until: float = 0.0  #: time at which it opens again [s]


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
        self._tried: OrderedDict[str, _Tried] = OrderedDict()

    @property
    def there(self) -> bool:
        """Whether there is a door at all."""
        return bool(self._password)

    def shut(self, address: str) -> bool:
        """Tell whether it is shut for an address after too many wrong passwords.

        Parameters
        ----------
        address
            address that asks; empty for this machine
        """
        tried = self._tried.get(_network(address))
        return tried is not None and self._clock() < tried.until

    def opens(self, header: str, *, address: str) -> bool:
        """Try the password of an Authorization header {rfc-7617}.

        Parameters
        ----------
        address
            address that asks; empty for this machine, which is never shut out
        """
        if not self._password or self.shut(address):
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
            tried.wrong, tried.until = 0, self._clock() + tried.shut_for
            tried.shut_for = min(2.0 * tried.shut_for, LONGEST)


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
    """Name who asks, for the door.

    Parameters
    ----------
    client
        address of the other end
    server
        address it was reached at

    Returns
    -------
    str
        the address; empty for this machine itself
    """
    try:
        here = ipaddress.ip_address(client.partition("%")[0]).is_loopback
    except ValueError:
        here = False
    return "" if here or client == server else client
