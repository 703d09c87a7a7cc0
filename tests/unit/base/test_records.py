"""Our frozen dataclasses do what those of the library do."""

from __future__ import annotations

import copy
import dataclasses
import inspect
import pickle

import numpy as np
import pytest

from boomwright.base import records


def kinds(dataclass):
    """The same classes by either decorator."""

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Tube:
        """A tube."""

        length: float  #: length [m]
        wall: float = 0.002
        name: str = dataclasses.field(default="", compare=False)
        holes: list[float] = dataclasses.field(default_factory=list, repr=False, hash=False)
        count: int = dataclasses.field(init=False, default=2)

        def __post_init__(self):
            if self.length < 0.0:
                msg = "shorter than nothing"
                raise ValueError(msg)

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Tip(Tube):
        """A tube with an end."""

        wall: float = 0.001
        bend: tuple[float, ...] = ()

    @dataclass(frozen=True, slots=True, eq=False)
    class Course:
        """Numbers that are the same only when they are the same."""

        places: np.ndarray
        scale: float = 1.0

        def __repr__(self):
            return "a course"

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Nothing:
        """No fields."""

    return Tube, Tip, Course, Nothing


OURS, THEIRS = kinds(records.dataclass), kinds(dataclasses.dataclass)
Tube, Tip, Course, Nothing = OURS
for each in OURS:
    each.__qualname__ = each.__name__


def told(classes):
    """What both must say alike."""
    tube, tip, course, nothing = classes
    made = tube(length=1.5, holes=[0.1], name="a")
    return [
        dataclasses.asdict(made),
        dataclasses.replace(made, length=2.0) == tube(length=2.0, holes=[0.1]),
        made == tube(length=1.5, holes=[0.1], name="b"),
        made == tip(length=1.5, holes=[0.1]),
        made != tube(length=1.5),
        hash(tube(length=1.5, name="a")) == hash(tube(length=1.5, name="b", holes=[1.0])),
        hash(nothing()) == hash(nothing()),
        nothing() == nothing(),
        tip(length=1.0).wall,
        tip(length=1.0, bend=(1.0,)).count,
        tube(length=1.0).holes is not tube(length=1.0).holes,
        repr(made).rpartition(".")[2],
        repr(nothing()).rpartition(".")[2],
        repr(course(np.zeros(2))),
        course(np.zeros(2), 3.0).scale,
        course(np.zeros(2)) == course(np.zeros(2)),
        [each.name for each in dataclasses.fields(tip)],
        list(inspect.signature(tip).parameters),
        list(inspect.signature(course).parameters),
        tip.__slots__,
        tip.__match_args__,
        hasattr(made, "__dict__"),
    ]


def test_they_say_the_same():
    assert told(OURS) == told(THEIRS)


@pytest.mark.parametrize("classes", [OURS, THEIRS])
def test_they_refuse_the_same(classes):
    tube, _, course, nothing = classes
    made = tube(length=1.0)
    for refused in (
        lambda: setattr(made, "length", 2.0),
        lambda: setattr(made, "other", 2.0),
        lambda: delattr(made, "length"),
    ):
        with pytest.raises((dataclasses.FrozenInstanceError, TypeError)):
            refused()
    for wrong in (tube, lambda: tube(1.0), lambda: tube(length=1.0, other=1), lambda: nothing(1)):
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(TypeError):
        course()
    with pytest.raises(ValueError, match="shorter than nothing"):
        dataclasses.replace(made, length=-1.0)


def test_copies_and_pickles():
    made = Tip(length=1.5, holes=[0.1], name="a", bend=(1.0,))
    back = pickle.loads(pickle.dumps(made))  # noqa: S301
    for other in (copy.copy(made), copy.deepcopy(made), back):
        assert other == made
        assert other.name == "a"
    assert copy.deepcopy(made).holes is not made.holes
