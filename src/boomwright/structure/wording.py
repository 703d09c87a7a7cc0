"""Lengths, speeds, pressures and forces that go into the sentences of this room, by their kinds."""

from __future__ import annotations

from functools import partial

from boomwright.base.quantity import Quantity

#: metres in a foot, exact {nist-sp-811}
FOOT = 0.3048
#: metres a second in a mile an hour, exact {nist-sp-811}
MILE_PER_HOUR = 0.44704

span = partial(Quantity, kind="height")
stretch = partial(Quantity, kind="stretch")
thickness = partial(Quantity, kind="small length")
speed = partial(Quantity, kind="speed")
pressure = partial(Quantity, kind="wind pressure")
soil_pressure = partial(Quantity, kind="soil pressure")
force = partial(Quantity, kind="load")
large_force = partial(Quantity, kind="large force")
moment = partial(Quantity, kind="turning load")
stress = partial(Quantity, kind="tube stress")
