"""Plans: TOML text to a frozen plan in SI and back, with every fault found at once.

Start with ``read_plan(text)``: it gives a ``Plan`` or raises ``PlanError`` whose faults each
name the place (``beam[0].element[2].length``), the line, the value as written and a remedy.
``write_plan`` is its inverse; ``rewrite`` changes single values of an owner's text and leaves
comments, order and units alone; ``starter_plan`` writes a first guess for a band;
``plan_schema`` describes the file to editors. Text in, text out: no file is opened here.

Inside, ``tables`` declares each table of the file once (fields, checks, how to build);
``kinds`` and ``spec`` turn a declaration into reading and into JSON Schema; ``quantity``
reads numbers with units; ``layout`` knows where each value stands in the text.
"""

from boomwright.plan.model import Plan, Site
from boomwright.plan.quantity import QuantityError, parse_quantity
from boomwright.plan.read import LARGEST_BYTES, read_plan

__all__ = [
    "LARGEST_BYTES",
    "Plan",
    "QuantityError",
    "Site",
    "parse_quantity",
    "read_plan",
]
