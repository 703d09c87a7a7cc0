"""47 CFR 1.1307(b)(3)(i)(C) Table 1, factors from memory.

The rule's factors are the general-population limit of 47 CFR 1.1310 met at the given distance
with full ground reflection and effective radiated power over a half-wave dipole (1.64). That
is held here against the table, which is rounded to two or three figures.
"""
