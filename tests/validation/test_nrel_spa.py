"""Place of the sun against the worked example of a solar position algorithm.

I. Reda, A. Andreas, Solar position algorithm for solar radiation applications, NREL/TP-560-34302,
revised 2008, table A5.1, from memory: 17 October 2003, 12:30:30 at UTC - 7 h, 39.742476 N,
105.1786 W: azimuth 194.34024 deg, elevation before refraction 39.872046 deg.
"""

import numpy as np

from boomwright.tuning.sun import sun_place


def test_worked_example():
    found = sun_place(
        day="2003-10-17",
        utc_hours=19.0 + 30.0 / 60.0 + 30.0 / 3600.0,
        latitude=np.radians(39.742476),
        longitude=np.radians(-105.1786),
    )
    # The series are good to 0.01 deg; the azimuth swings 1.3 times as fast as the sun moves here.
    np.testing.assert_allclose(np.degrees(found.azimuth), 194.34024, atol=0.02)
    np.testing.assert_allclose(np.degrees(found.elevation), 39.872046, atol=0.015)
