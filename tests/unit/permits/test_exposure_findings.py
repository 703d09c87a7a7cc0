"""Ratios, averaging and wording of exposure findings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from boomwright.permits import (
    EMISSION_DUTY,
    average_power,
    exposure_finding,
    finding_notice,
    transmit_share,
)
from boomwright.permits.exposure import exposure_ratio, plane_wave_fields
from boomwright.permits.exposure_limits import fcc_limit, icnirp_limit
from written import metric

LIMIT = fcc_limit(frequency=14.2e6, group="general")


def test_ratio_uses_squares_and_the_largest_counts():
    ratio = exposure_ratio(
        LIMIT,
        electric_field=LIMIT.electric_field / 2,
        magnetic_field=LIMIT.magnetic_field * 2,
    )
    assert ratio.electric == pytest.approx(0.25, rel=1e-12)
    assert ratio.magnetic == pytest.approx(4.0, rel=1e-12)
    assert ratio.governing == pytest.approx(4.0, rel=1e-12)


def test_fields_become_power_density_where_only_that_is_limited():
    limit = fcc_limit(frequency=435e6, group="general")
    electric, magnetic = plane_wave_fields(power_density=limit.power_density)
    ratio = exposure_ratio(limit, electric_field=electric, magnetic_field=magnetic)
    assert ratio.electric is None
    assert ratio.power == pytest.approx(1.0, rel=1e-9)


def test_plane_wave_equivalent_agrees_with_the_fcc_field_columns():
    # 27.5 V/m and 0.2 mW/cm2 are rounded to the same wave in the table
    limit = fcc_limit(frequency=50.1e6, group="general")
    electric, _ = plane_wave_fields(power_density=limit.power_density)
    assert electric == pytest.approx(limit.electric_field, rel=5e-3)


def test_power_density_alone_is_not_checked_below_30_mhz_in_icnirp():
    limit = icnirp_limit(frequency=14.2e6, group="general")
    ratio = exposure_ratio(limit, power_density=0.1)
    finding = exposure_finding(ratio, place="patio", near_field=True, whom_to_ask="authority")
    assert ratio.governing is None
    assert finding.verdict == "not checked"


@pytest.mark.parametrize(
    ("electric", "magnetic", "near", "verdict"),
    [
        (0.5, 0.5, True, "within"),
        (0.5, None, True, "ask"),
        (0.5, None, False, "within"),
        (1.01, None, True, "exceeded"),
        (0.5, 1.01, False, "exceeded"),
    ],
)
def test_verdicts(electric, magnetic, near, verdict):
    ratio = exposure_ratio(
        LIMIT,
        electric_field=electric * LIMIT.electric_field,
        magnetic_field=None if magnetic is None else magnetic * LIMIT.magnetic_field,
    )
    finding = exposure_finding(ratio, place="patio", near_field=near, whom_to_ask="authority")
    assert finding.verdict == verdict
    notice = finding_notice(finding)
    assert notice.severity == {"within": "note", "ask": "doubt", "exceeded": "limit"}[verdict]
    assert "safe" not in metric(notice.text).lower()


@given(
    transmit=st.integers(1, 900), listen=st.integers(0, 900), window=st.sampled_from([360, 1800])
)
def test_share_is_the_worst_of_all_windows(transmit, listen, window):
    # Counted second by second over all starting seconds; times are whole seconds.
    period = transmit + listen
    pattern = [second % period < transmit for second in range(window + period)]
    sums = [0]
    for on in pattern:
        sums.append(sums[-1] + on)
    worst = max(sums[start + window] - sums[start] for start in range(period))
    share = transmit_share(transmit=transmit, listen=listen, averaging_time=window)
    assert share == pytest.approx(worst / window, rel=1e-12)


def test_average_power():
    power = average_power(
        peak_envelope_power=400.0,
        emission_duty=EMISSION_DUTY["single sideband, unprocessed"],
        share=0.5,
    )
    assert power == pytest.approx(40.0, rel=1e-12)
    with pytest.raises(ValueError, match=r"share is 1\.5"):
        average_power(peak_envelope_power=1.0, emission_duty=1.0, share=1.5)
    with pytest.raises(ValueError, match="0 s or more"):
        transmit_share(transmit=-1.0, listen=0.0, averaging_time=360.0)
    assert transmit_share(transmit=0.0, listen=0.0, averaging_time=360.0) == 0.0
