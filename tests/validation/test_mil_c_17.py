"""Attenuation limits of MIL-C-17G slash sheets: typical lines must lie below them."""

from __future__ import annotations

from check_values import feed_check as check

from boomwright.feed import COAX_TYPES


def test_typical_lines_keep_the_limits():
    values = check("coax-milc17")
    for name, row in (("RG-58C", "RG58_dB_per_100ft"), ("RG-213", "RG213_dB_per_100ft")):
        for megahertz, limit in zip(
            values["inputs"]["f_MHz"], values["expected"][row], strict=True
        ):
            typical = COAX_TYPES[name].attenuation_db(frequency=megahertz * 1e6) * 30.48
            # A plausibility band: above a third of the limit, not more than 15 % over it.
            assert limit / 3.0 < typical < 1.15 * limit
