"""What a sweep tells of the phase: everything, the size of the reactance alone, or nothing."""

from __future__ import annotations

from dataclasses import replace

from boomwright.base import Notice
from boomwright.tuning.causes import usual_causes
from boomwright.tuning.posterior import find_modes
from boomwright.tuning.readings import Meter, Reading
from boomwright.tuning.surrogate import Surrogate
from boomwright.tuning.sweep_model import SweepModel
from boomwright.tuning.tolerance import Tolerance

#: an unsigned reading of a reactance may fall below zero by this much for noise, in reflection
_BELOW = 1e-9
#: readings below which nothing can be said of the sign
_FEWEST = 5
#: log evidence by which a reading without signs must be better
_CLEARLY = 2.0


def sweep_phase(
    *, surrogate: Surrogate, reading: Reading, meter: Meter, tolerance: Tolerance | None
) -> tuple[Reading, tuple[Notice, ...]]:
    """Find out whether a meter left the sign of the reactance out, trying both.

    Returns:
        the reading with what it tells of the phase, and what to say of it
    """
    if not reading.sweep.phase_known:
        return replace(reading, phase="none"), ()
    above = reading.sweep.reflection.imag >= -_BELOW
    if len(above) < _FEWEST or not above.all():
        return reading, ()
    causes = usual_causes(installation=surrogate.bench.installation, tolerance=tolerance)
    evidence = {}
    for phase in ("known", "unsigned"):
        tried = replace(reading, phase=phase)
        model = SweepModel(
            surrogate=surrogate, causes=causes, readings=(tried,), meter=meter, moved_within={}
        )
        evidence[phase] = find_modes(model)[0].log_evidence
    unsigned = evidence["unsigned"] > evidence["known"] + _CLEARLY
    said = "without signs explains the sweep better" if unsigned else "with signs explains it"
    notice = Notice(
        code="tuning.unsigned",
        severity="doubt" if unsigned else "note",
        text="No reactance of the sweep is below zero: the meter may leave its sign out. Both were "
        f"tried; reading it {said}, and is used.",
    )
    return replace(reading, phase="unsigned" if unsigned else "known"), (notice,)
