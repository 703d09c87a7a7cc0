"""The tables of a plan, one file each: fields, checks between fields, and how to build.

To add a table: write ``<table>.py`` with a ``TableSpec`` and a ``build_...`` function, put
its ``Field`` into ``root.py`` and its value into ``plan/model.py``.
"""
