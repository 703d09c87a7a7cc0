"""US Army signal course text: no mast is erected above 25 mph; our limits lie below."""

from check_values import expected_values

from boomwright.raising import WeatherStops
from boomwright.raising.weather import weather_answer

CHECKS = expected_values("raising_checks.toml")


def test_hoisting_stops_below():
    limit = CHECKS["raise_wind_army"] * 0.44704
    stops = WeatherStops()
    assert stops.begin_hoist_below < stops.stop_hoist_at < stops.no_climb_at < limit
    assert weather_answer(gust=limit).hoist == "no-go"
