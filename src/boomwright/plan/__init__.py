"""Plans: TOML text to a frozen plan in SI and back, with every fault found at once.

Start with ``read_plan(text)``: it gives a ``Plan`` or raises ``PlanError`` whose faults each
name the place (``beam[0].element[2].length``), the line, the value as written and a remedy;
``read_place`` takes a file without an antenna too. ``plan_notices`` lists what is allowed but
doubtful. ``write_plan`` is the inverse of reading; ``rewrite`` changes single values of an
owner's text and leaves comments, order and units alone; ``starter_plan`` writes a first guess
for a band; ``plan_schema`` describes the file to editors. Text in, text out: no file is opened
here.

``resolve``, a package of its own to be imported where needed, turns a plan into what each room
takes. Models are in ``model`` and its like: ``None`` there means that the plan does not say.

Inside, ``tables`` declares each table of the file once (fields, checks, how to build);
``kinds``, ``numbers``, ``lists`` and ``spec`` turn a declaration into reading and into JSON
Schema, ``building`` and ``writing`` into the model and back into text; ``quantity`` reads
numbers with units; ``layout`` knows where each value stands.
"""

from boomwright.plan.bands import band_edges
from boomwright.plan.directions import where_key
from boomwright.plan.doubts import plan_notices
from boomwright.plan.model import Plan, PlanFile, Site
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.plan.read import LARGEST_BYTES, read_place, read_plan, written_system
from boomwright.plan.reading_habit import spoken_system
from boomwright.plan.rewrite import rewrite, set_element_length
from boomwright.plan.schema import plan_schema
from boomwright.plan.starter import starter_plan
from boomwright.plan.tables.root import PLAN_VERSION
from boomwright.plan.write import write_plan
