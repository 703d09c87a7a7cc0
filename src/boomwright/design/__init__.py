"""Design: the best beam that can be built, and why it is the best.

A search needs figures of very many designs. ``array_slopes`` solves batches of parallel arrays
over a band with exact slopes, ``minimax`` climbs from one start, ``search`` from many.
"""
