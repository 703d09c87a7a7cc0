"""Use cases, named by verbs: a plan in, results out, pure.

No disk, no clock: progress, checkpoints and executors come in as arguments.
"""
