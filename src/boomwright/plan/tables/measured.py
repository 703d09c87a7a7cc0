"""``[measured]``: a measured sweep of the built beam, and the trials since."""

from __future__ import annotations

from boomwright.plan.faults import Place
from boomwright.plan.fields import above_zero, count, either_sign, words
from boomwright.plan.kinds import Day
from boomwright.plan.model_wish import MeasuredPlan, MeterLinePlan, MovePlan, TrialPlan
from boomwright.plan.numbers import Quantity
from boomwright.plan.spec import Field, Tables, TableSpec, Values
from boomwright.plan.tables.line import LINE_TYPE

_SWEEP = Field(
    key="sweep",
    kind=words("sweep", "").kind,
    help="File with the sweep, Touchstone or a table.",
    required=True,
    example='sweep = "antenna.s1p"',
)
_DAY = Field(key="day", kind=Day(), help="Day of the measurement.")

METER_LINE = TableSpec(
    noun="meter line",
    model=MeterLinePlan,
    fields=(
        LINE_TYPE,
        above_zero("length", "length", "Its length.", required=True, example="30 m"),
        Field(key="open", kind=words("open", "").kind, attribute="open_sweep",
              help="File with a sweep of it, its far end open."),
        Field(key="short", kind=words("short", "").kind, attribute="short_sweep",
              help="File with a sweep of it, its far end shorted."),
    ),
)  # fmt: skip


def _check_move(values: Values, at: Place) -> None:
    if ("element" in values) == ("stage" in values):
        message = "a move is of one element's tips or of one piece of the match"
        remedy = 'write { element = 0, tips = "10 mm" }, or { stage = 0, longer = "5 mm" }'
        at.fault(message, remedy=remedy)
        return
    wanted = ("tips",) if "element" in values else ("longer", "more")
    given = [key for key in ("tips", "longer", "more") if key in values]
    if len(given) != 1 or given[0] not in wanted:
        message = f"this move says {' and '.join(given) or 'nothing'} about how far"
        at.fault(message, remedy=f"write {' or '.join(wanted)}, one of them")


MOVE = TableSpec(
    noun="move",
    model=MovePlan,
    check=_check_move,
    fields=(
        count("element", "Index of the element whose tips were moved, from 0.", most=99),
        either_sign("tips", "length", "How far each tip went outwards.", size=10.0),
        count("stage", "Index of the piece of the match, from the antenna, from 0.", most=20),
        either_sign("longer", "length", "How much longer its line or stub was made.", size=50.0),
        Field(
            key="more",
            kind=Quantity(dimension="ratio", low=-1.0, high=10.0),
            help="By what share its capacitor or coil was made larger.",
        ),
    ),
)

TRIAL = TableSpec(
    noun="trial",
    model=TrialPlan,
    fields=(
        _SWEEP,
        Field(
            key="moved",
            kind=Tables(spec=MOVE, header="[[measured.trial.moved]]", least=0),
            help="What was moved since the sweep before.",
        ),
        _DAY,
        words("note", "Owner's remark.", longest=200),
    ),
)

MEASURED = TableSpec(
    noun="measured",
    model=MeasuredPlan,
    fields=(
        _SWEEP,
        words("beam", "Name of the beam it is of; not needed when there is one.", longest=64),
        _DAY,
        above_zero("reference", "resistance", "Resistance of the meter.", high=1000.0),
        Field(key="line", kind=METER_LINE, help="Line between meter and feed point."),
        Field(
            key="trial",
            kind=Tables(spec=TRIAL, header="[[measured.trial]]", least=0),
            help="Trials since, in their order.",
        ),
    ),
)
