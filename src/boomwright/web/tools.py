"""What the page needs from outside: one protocol, filled in where the program is wired."""

from __future__ import annotations

from typing import Protocol

from boomwright.web.improve_tools import ImproveTools
from boomwright.web.plan_tools import PlanTools
from boomwright.web.solving_tools import SolvingTools
from boomwright.web.subject_tools import SubjectTools
from boomwright.web.work_tools import WorkTools


class Tools(PlanTools, SolvingTools, ImproveTools, SubjectTools, WorkTools, Protocol):
    """Everything the page calls that reads text, computes, makes files or touches the disk."""
