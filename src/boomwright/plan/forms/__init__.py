"""Forms made from the plan's own declaration: one way for every table and key there is.

``form_of`` says what a table holds and may hold, ``branch_of`` what stands below a table and
what may be added, and ``fill`` writes what was typed into the owner's text. Help, choices, ranges
and examples are those of the schema and of the faults; nothing here knows a single table.
``restated`` writes a whole plan in its reader's units.
"""

from boomwright.plan.forms.declared import Form as Form
from boomwright.plan.forms.declared import FormKey as FormKey
from boomwright.plan.forms.declared import form_of as form_of
from boomwright.plan.forms.filling import confirm as confirm
from boomwright.plan.forms.filling import fill as fill
from boomwright.plan.forms.filling import move as move
from boomwright.plan.forms.filling import take_out as take_out
from boomwright.plan.forms.native import native_text as native_text
from boomwright.plan.forms.restate import restated as restated
from boomwright.plan.forms.tree import Addition as Addition
from boomwright.plan.forms.tree import Branch as Branch
from boomwright.plan.forms.tree import branch_of as branch_of
