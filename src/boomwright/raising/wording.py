"""Weights, forces and lengths that go into the sentences of this room, by their kinds."""

from __future__ import annotations

from functools import partial

from boomwright.base.quantity import Quantity

mass = partial(Quantity, kind="mass")
force = partial(Quantity, kind="load")
moment = partial(Quantity, kind="large moment")
span = partial(Quantity, kind="height")
speed = partial(Quantity, kind="speed")
