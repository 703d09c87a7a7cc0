"""US Army signal course text: no mast is erected above 25 mph; our limits lie below."""

import tomllib
from pathlib import Path

from boomwright.raising import WeatherStops
from boomwright.raising.weather import weather_answer

_DATA = tomllib.loads(
    (Path(__file__).parent / "data" / "raising_checks.toml").read_text(encoding="utf-8")
)
CHECKS = {check["id"]: check["expected"] for check in _DATA["check"]}


def test_hoisting_stops_below():
    limit = CHECKS["raise_wind_army"] * 0.44704
    stops = WeatherStops()
    assert stops.begin_hoist_below < stops.stop_hoist_at < stops.no_climb_at < limit
    assert weather_answer(gust=limit).hoist == "no-go"
