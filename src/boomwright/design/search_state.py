"""All that a search knows, as a value that can be saved and read back."""

from __future__ import annotations

from typing import Any

from boomwright.base.records import dataclass
from boomwright.design.space import WishError


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimbedStart:
    """What became of one start, in plain numbers that JSON can hold."""

    round_number: int  #: round it belongs to
    number: int  #: number within the round
    free: tuple[float, ...]  #: free numbers where it ended [-]
    score: float  #: weighed worst figures less the price of broken limits [dB]
    breach: float  #: how far limits are broken [dB]
    gain_dbi: float  #: worst gain in the band [dBi]
    front_to_rear_db: float  #: worst front-to-rear ratio in the watched directions [dB]
    reflection_db: float  #: largest loss by reflection [dB]
    evaluations: int  #: designs computed


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchState:
    """All that a search knows; enough to go on from."""

    seed: int  #: seed of its chance
    starts: int  #: starts in each round
    climbed: tuple[ClimbedStart, ...] = ()  #: finished starts
    finished: bool = False  #: whether the search came to its end

    @property
    def best_found(self) -> ClimbedStart:
        """The best design found.

        Raises:
            WishError: when the search was stopped before its first
        """
        if self.best is None:
            raise WishError(
                "the search was stopped before its first design",
                remedy="let it run a little longer",
            )
        return self.best

    @property
    def best(self) -> ClimbedStart | None:
        """Best start so far, None before the first one ends."""
        return max(self.climbed, key=lambda one: (one.score, -one.number), default=None)

    def document(self) -> dict[str, Any]:
        """Write the state as plain data for JSON."""
        return {
            "seed": self.seed,
            "starts": self.starts,
            "finished": self.finished,
            "climbed": [
                [
                    one.round_number,
                    one.number,
                    list(one.free),
                    one.score,
                    one.breach,
                    one.gain_dbi,
                    one.front_to_rear_db,
                    one.reflection_db,
                    one.evaluations,
                ]
                for one in self.climbed
            ],
        }


def taken_up(state: SearchState | None, *, seed: int, starts: int) -> SearchState:
    """Take a saved search up again, or begin one.

    Raises:
        WishError: when the state given belongs to another search
    """
    if state is None:
        return SearchState(seed=seed, starts=starts)
    if (state.seed, state.starts) != (seed, starts):
        raise WishError(
            f"the saved search had seed {state.seed} and {state.starts} starts, not {seed} and "
            f"{starts}",
            remedy="resume it as it was, or delete it",
        )
    return state


def state_from(document: dict[str, Any]) -> SearchState:
    """Read a state back from plain data.

    Raises:
        WishError: when it is no such document
    """
    names = ClimbedStart.__dataclass_fields__
    try:
        climbed = tuple(
            ClimbedStart(**{**dict(zip(names, row, strict=True)), "free": tuple(row[2])})
            for row in document["climbed"]
        )
        return SearchState(
            seed=int(document["seed"]),
            starts=int(document["starts"]),
            climbed=climbed,
            finished=bool(document["finished"]),
        )
    except (KeyError, TypeError, ValueError, IndexError) as error:
        raise WishError(
            f"the saved search cannot be read ({error})", remedy="delete it and search again"
        ) from None
