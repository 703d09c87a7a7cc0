"""Forms made from the plan's own declaration: one way for every table and key there is.

``form_of`` says what a table holds and may hold, ``branch_of`` what stands below a table and
what may be added, and ``fill`` writes what was typed into the owner's text. Help, choices, ranges
and examples are those of the schema and of the faults; nothing here knows a single table.
``restated`` writes a whole plan in its reader's units.
"""

from boomwright.plan.forms.declared import Form, form_of
from boomwright.plan.forms.filling import confirm, fill, move, take_out
from boomwright.plan.forms.restate import restated
from boomwright.plan.forms.tree import Addition, Branch, branch_of
