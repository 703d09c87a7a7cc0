"""The tables of a plan, one file each: fields, checks between fields, and how to build.

To add an optional table at the root: write ``<table>.py`` with a ``TableSpec`` whose ``model`` is
a frozen class with one field for each key, enter it in ``further.py`` and give ``Plan`` a field of
the same name. Reading, schema and writing follow. Where a room below computes with those very
fields, ``model`` names the room's class; else the class stands in ``plan/model_...py``.
"""
