"""When the weather stops the work.

The hoisting and climbing limits are this project's cautious defaults {common-practice-raising},
below what a school of mast crews teaches {army-mast-wind}; a crane's or lift truck's own limit,
when lower, goes first.
"""

from __future__ import annotations

from typing import Final, Literal

from boomwright.base.quantity import Value, phrase
from boomwright.base.records import dataclass
from boomwright.raising.wording import speed

_MPH: Final = 0.44704  # exact by definition {nist-sp-811}

#: wind above which a school of mast crews erects no mast [m/s] {army-mast-wind}
ARMY_LIMIT: Final = 25.0 * _MPH

Answer = Literal["go", "no-go", "ask"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherStops:
    """Limits of the day."""

    begin_hoist_below: float = 10.0 * _MPH  #: hoist only while gusts stay below [m/s]
    stop_hoist_at: float = 15.0 * _MPH  #: lower the load at [m/s]
    no_climb_at: float = 20.0 * _MPH  #: nobody climbs or stays up at [m/s]
    #: a qualified person decides on lifting people by crane at [m/s]
    people_in_platform_review: float = 20.0 * _MPH  # {cfr-29-1926-1431, (k)(8)}
    wait_after_thunder: float = 1800.0  #: time without thunder before anybody goes up [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherAnswer:
    """Whether to start, on the weather alone."""

    hoist: Answer  #: ``go``, ``no-go`` or ``ask``
    climb: Answer  #: ``go``, ``no-go`` or ``ask``
    reason: Value  #: why, in plain words


def weather_answer(
    *,
    gust: float | None,
    thunder_age: float | None = None,
    wet_or_iced: bool = False,
    stops: WeatherStops | None = None,
) -> WeatherAnswer:
    """Hold a forecast or a reading against the limits.

    Args:
        gust: gust at lift height; None when not known [m/s]
        thunder_age: time since the last thunder heard; None when none was [s]
        wet_or_iced: True when steps are wet or iced
        stops: limits; None for the defaults
    """
    limits = stops or WeatherStops()
    if thunder_age is not None and thunder_age < limits.wait_after_thunder:
        return WeatherAnswer(
            hoist="no-go",
            climb="no-go",
            reason=f"thunder {thunder_age / 60:.0f} min ago; wait "
            f"{limits.wait_after_thunder / 60:.0f} min after the last",
        )
    if gust is None:
        climb: Answer = "no-go" if wet_or_iced else "ask"
        return WeatherAnswer(hoist="ask", climb=climb, reason="no wind figure: read it on the day")
    hoist: Answer = "go" if gust < limits.begin_hoist_below else "no-go"
    climbing: Answer = "no-go" if wet_or_iced or gust >= limits.no_climb_at else "go"
    reason = phrase(
        "gusts {gust}; hoist below {begin_hoist_below}, lower the load at "
        "{stop_hoist_at}, nobody up at {no_climb_at}", gust=speed(gust),
        begin_hoist_below=speed(limits.begin_hoist_below),
        stop_hoist_at=speed(limits.stop_hoist_at), no_climb_at=speed(limits.no_climb_at),
    )  # fmt: skip
    if wet_or_iced:
        reason = phrase("{reason}; steps wet or iced", reason=reason)
    return WeatherAnswer(hoist=hoist, climb=climbing, reason=reason)
