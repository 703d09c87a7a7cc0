"""What is said of the site: ground, position, wind, ice."""

from __future__ import annotations

import math

from boomwright.base.quantity import Quantity, Value, listed, phrase
from boomwright.plan import Site
from boomwright.report.model import Fact, fact
from boomwright.report.wording import clean
from boomwright.solver import Ground


def ground_text(ground: Ground) -> str:
    """Describe a ground."""
    if ground.kind == "free space":
        return "none (free space)"
    if ground.kind == "perfect":
        return "perfect conductor"
    constants = (
        f"relative permittivity {ground.permittivity:g}, "
        f"conductivity {ground.conductivity * 1000.0:g} mS/m"
    )
    return f"{clean(ground.name)} ({constants})" if ground.name else constants


def _position(site: Site) -> Value:
    if site.latitude is None or site.longitude is None:
        return "not given"
    return listed(
        [
            phrase(f"{{angle:position}} {names[value < 0.0]}", angle=math.degrees(abs(value)))
            for value, names in ((site.latitude, "NS"), (site.longitude, "EW"))
        ]
    )


def wind_told(site: Site) -> Value:
    """Say the wind the plan states with its basis, or that it gives none."""
    basis = site.wind_basis
    if basis.pressure:
        stated = [
            phrase("{:wind pressure} at {:whole length}", value, height)
            for height, value in basis.pressure
        ]
        return phrase(
            "peak pressure {}, {}, by {}", listed(stated), clean(basis.edition), clean(basis.by)
        )
    if site.wind_speed is None:
        return "not given"
    mean = "basic 10 min mean at {height}" if basis.european else "3 s gust at {height}"
    said: list[Value] = [
        Quantity(site.wind_speed, "speed"),
        phrase(mean, height=Quantity(10.0, "whole length")),
        f"{clean(basis.kind)} speed" if basis.kind else "basis not stated",
        clean(basis.edition),
        f"exposure {clean(basis.exposure)}" if basis.exposure and not basis.european else "",
        f"terrain {clean(basis.terrain)}" if basis.terrain and basis.european else "",
    ]
    return listed([part for part in said if part])


def site_facts(site: Site) -> tuple[Fact, ...]:
    """List what the plan says of the site."""
    ice = site.ice_thickness
    return (
        fact("Position", _position(site)),
        fact("Ground", ground_text(site.ground)),
        fact("Wind", wind_told(site)),
        fact("Radial ice", "not given" if ice is None else Quantity(ice, "small length")),
    )
