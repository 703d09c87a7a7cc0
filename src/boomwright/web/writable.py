"""Places of the plan a window may type a value into."""

from __future__ import annotations

import re
from typing import Final

#: only places the page shows a field for
WRITABLE: Final = re.compile(
    r"title|site\.ground"
    r"|site\.(?:wind|ice|elevation|ice_basis\.(?:gust|mapped))"
    r"|site\.wind_basis\.(?:kind|edition|exposure|terrain|orography|by)"
    r"|permits\.(?:country|boundary|walkway|crane|lightning_rod)"
    r"|prices\.(?:currency|budget|list)|raising\.(?:mass|forecast_gust)"
    r"|site\.(?:position|locator)|reach\.(?:wanted|terrain|ring|stack)"
    r"|transmitter\.(?:power|emission|transmit|listen)"
    r"|line\.length|support\.(?:mast\.wall|guy\[\d{1,2}\]\.strand)"
    r"|wish\.(?:boom|gain|front_to_rear|closest|element|mass|wind_area|cutting_error)"
    r"|beam\[\d{1,3}\]\.(?:height|heading|design|boom\.wall"
    r"|feed\.(?:rod_diameter|rod_spacing|rod_length|capacitance)"
    r"|element\[\d{1,3}\]\.(?:at|length|half\[\d{1,2}\]\[[01]\]))"
)
