"""Work done once for the same objects."""

from dataclasses import dataclass

import pytest

from boomwright.base.once import once_for_the_same


@dataclass(frozen=True)
class Box:
    """Something that is equal to another one of the same content."""

    holds: int


def test_the_same_object_is_asked_about_once_and_an_equal_one_anew():
    asked = []

    @once_for_the_same
    def doubled(box: Box, more: Box | None) -> int:
        asked.append(box)
        if box.holds < 0:
            message = "less than nothing"
            raise ValueError(message)
        return 2 * box.holds + (more.holds if more else 0)

    box, more = Box(2), Box(1)
    assert (doubled(box, None), doubled(box, None), doubled(box, more)) == (4, 4, 5)
    assert asked == [box, box]
    assert doubled(Box(2), None) == 4
    assert len(asked) == 3
    bad = Box(-1)
    for _ in range(2):
        with pytest.raises(ValueError, match="less than nothing"):
            doubled(bad, None)
    assert len(asked) == 5
    for number in range(9):
        assert doubled(Box(number), None) == 2 * number
    doubled(box, None)
    assert asked[-1] is box
