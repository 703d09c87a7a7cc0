"""Touchstone files: right results for odd ones, clear errors for damaged ones."""

import numpy as np
import pytest

from boomwright.tuning import read_touchstone
from boomwright.tuning.errors import MeasurementError


def read(text, name="sweep.s1p", **more):
    return read_touchstone(content=text, name=name, **more)


def test_specification_example_of_one_port_impedances():
    """Touchstone 1.1 example, normalised impedances in modulus and angle {touchstone-1}."""
    text = (
        "! 1-port Z-parameter file, multiple frequency points\n"
        "# MHz Z MA R 75\n"
        "!freq magZ11 angZ11\n"
        "100 0.99 -4\n200 0.80 -22\n300 0.707 -45\n400 0.40 -62\n500 0.01 -89\n"
    )
    sweep = read(text, reference=75.0)
    np.testing.assert_allclose(sweep.frequencies, [1e8, 2e8, 3e8, 4e8, 5e8], rtol=1e-12)
    expected = (
        75.0
        * np.array([0.99, 0.80, 0.707, 0.40, 0.01])
        * np.exp(1j * np.radians([-4.0, -22.0, -45.0, -62.0, -89.0]))
    )
    np.testing.assert_allclose(sweep.impedance, expected, rtol=1e-9)


@pytest.mark.parametrize(
    ("options", "row"),
    [
        ("# MHz S RI R 50", "14.0 0.3 0.4"),
        ("# kHz S RI R 50", "14000 0.3 0.4"),
        ("# Hz S MA R 50", "14e6 0.5 53.13010235415598"),
        ("# GHz S DB R 50", "0.014 -6.020599913279624 53.13010235415598"),
        ("# mhz s ri r 50", "14.0 .3 .4 ! remark"),
    ],
)
def test_units_and_formats_agree(options, row):
    sweep = read(f"! made up\n{options}\n{row}\n")
    np.testing.assert_allclose(sweep.frequencies, [14e6], rtol=1e-12)
    np.testing.assert_allclose(sweep.reflection, [0.3 + 0.4j], rtol=1e-9)


def test_reversed_file_is_sorted_and_says_so():
    sweep = read("# MHz S RI R 50\n14.2 0.3 0\n14.1 0.2 0\n14.0 0.1 0\n")
    np.testing.assert_allclose(sweep.frequencies, [14.0e6, 14.1e6, 14.2e6], rtol=1e-12)
    np.testing.assert_allclose(sweep.reflection, [0.1, 0.2, 0.3], rtol=1e-12)
    assert [n.code for n in sweep.notices] == ["tuning.order"]
    assert "falling" in sweep.notices[0].text


def test_equal_readings_of_one_frequency_are_averaged():
    sweep = read("# MHz S RI R 50\n14.0 0.10 0\n14.0 0.12 0\n14.1 0.2 0\n")
    np.testing.assert_allclose(sweep.reflection, [0.11, 0.2], rtol=1e-12)
    assert [n.code for n in sweep.notices] == ["tuning.repeated-frequency"]


def test_different_readings_of_one_frequency_are_refused():
    with pytest.raises(MeasurementError, match=r"14 MHz stands there more than once"):
        read("# MHz S RI R 50\n14.0 0.1 0\n14.0 0.5 0\n")


def test_real_reference_is_changed_to_the_wanted_one():
    # S = 0 against 75 ohm is 75 ohm: 0.2 against 50 ohm.
    sweep = read("# MHz S RI R 75\n14.0 0 0\n14.1 0 0\n")
    np.testing.assert_allclose(sweep.reflection, [0.2, 0.2], rtol=1e-12)


def test_keyworded_file_with_its_own_reference():
    text = (
        "[Version] 2.0\n# MHz S RI R 50\n[Number of Ports] 1\n[Number of Frequencies] 2\n"
        "[Reference] 75\n[Network Data]\n14.0 0 0\n14.1 0 0\n[End]\n"
    )
    np.testing.assert_allclose(read(text, name="a.ts").reflection, [0.2, 0.2], rtol=1e-12)


def test_keyworded_file_that_was_cut_off():
    text = (
        "[Version] 2.0\n# MHz S RI R 50\n[Number of Ports] 1\n[Number of Frequencies] 3\n"
        "[Network Data]\n14.0 0 0\n14.1 0 0\n"
    )
    with pytest.raises(MeasurementError, match=r"a\.ts"):
        read(text, name="a.ts")


def test_two_port_file_gives_the_port_asked_for():
    text = "# MHz S RI R 50\n14.0 0.1 0 0.9 0 0.9 0 0.4 0\n"
    np.testing.assert_allclose(read(text, name="a.s2p").reflection, [0.1], rtol=1e-12)
    second = read(text, name="a.s2p", port=2)
    np.testing.assert_allclose(second.reflection, [0.4], rtol=1e-12)
    assert "tuning.two-port-file" in [n.code for n in second.notices]
    with pytest.raises(MeasurementError, match="port 3 was asked for"):
        read(text, name="a.s2p", port=3)


def test_bytes_with_mark_and_latin_letters():
    marked = "\ufeff# MHz S RI R 50\n14.0 0.1 0.2\n".encode()
    np.testing.assert_allclose(read(marked).reflection, [0.1 + 0.2j], rtol=1e-12)
    latin = "! Größe\n# MHz S RI R 50\n14.0 0.1 0.2\n".encode("latin-1")
    np.testing.assert_allclose(read(latin).reflection, [0.1 + 0.2j], rtol=1e-12)


def test_missing_option_line_is_doubted():
    sweep = read("14.0 0.5 0\n")
    np.testing.assert_allclose(sweep.frequencies, [14e9], rtol=1e-12)
    assert "tuning.no-option-line" in [n.code for n in sweep.notices]
    # Read so, a sweep in MHz lies nowhere near its band; the reason is told with it.
    with pytest.raises(
        MeasurementError, match=r"no measured frequency.*no option line.*# MHz S RI"
    ):
        sweep.between(lowest=13.9e6, highest=14.4e6)


def test_readings_that_no_antenna_gives_are_named_with_their_line():
    rows = [f"{14 + 0.02 * n:.2f} 0.3 0.1" for n in range(20)]
    rows[4] = "14.08 7.5 0"
    sweep = read("! meter\n# MHz S RI R 50\n" + "\n".join(rows))
    assert len(sweep.frequencies) == 19
    assert "line 7 (14.08 MHz, reflection 7.5)" in sweep.notices[0].text
    with pytest.raises(MeasurementError, match=r"20 of 20 readings.*line 1 .*no option line"):
        read("\n".join(row.replace("0.3", "1.3") for row in rows))


def test_messages_repeat_nothing_of_a_file_that_is_no_touchstone():
    for text in ("root:x:0:0\n", "# secret words\n", "[number of ports] secret\n", "1 secret 2\n",
                 "# MHz S RI R secret\n"):  # fmt: skip
        with pytest.raises(MeasurementError) as caught:
            read(text)
        assert not any(word in str(caught.value) for word in ("root", "secret"))


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "holds no readings"),
        ("# MHz S RI R 50\n", "holds no readings"),
        ("# MHz S RI R 50\n14.0 0.1 0.2\n14.1 0.1\n", r"line 3: 2 numbers where .* has 3"),
        ("# MHz S RI R 50\n14.0 0.1 0.2 0.3\n", r"line 2: 4 numbers"),
        ("# MHz S RI R 50\n14.0 abc 0.2\n", "line 2: word 2 is not a number"),
        ("# MHz S RI R 50\n14.0 0,1 0,2\n", "line 2: word 2 has a decimal comma"),
        ("# MHz S RI R 50\n14.0 nan 0.2\n", "line 2: is not a number"),
        ("# MHz S RI R 50\n-14.0 0.1 0.2\n", "is not above zero"),
        ("# GHz S RI R 50\n1e308 0.1 0.2\n", "line 2: is not a number"),
        ("# MHz Z RI R 50\n14 1e308 1e308\n", "line 2: is not a number"),
        ("# MHz Q RI R 50\n14.0 0.1 0.2\n", "line 1: word 2 of the option line"),
        ("# MHz S RI R 50 10\n14.0 0.1 0.2\n", r"line 1: the reference impedance"),
        ("# MHz S RI R -50\n14.0 0.1 0.2\n", r"line 1: the reference impedance"),
        ("# MHz S RI R\n14.0 0.1 0.2\n", r"line 1: the reference impedance"),
        (b"\x00\x01\x02", "is not text"),
    ],
)
def test_damaged_files_are_refused_with_their_place(text, message):
    with pytest.raises(MeasurementError, match=message) as caught:
        read(text)
    assert "sweep.s1p" in str(caught.value)


def test_four_port_file_is_refused():
    with pytest.raises(MeasurementError, match="4 ports"):
        read("# MHz S RI R 50\n" + " ".join(["14"] + ["0"] * 8) + "\n", name="a.s4p")
