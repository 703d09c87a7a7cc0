"""Reach: lobes over the owner's ground, and where they go.

``read_beam`` computes everything the page, the book and the command line show of one beam;
``quick_look`` what a hand on the page wants to see at once.
"""

from boomwright.reach.lobes import forward_lobes
from boomwright.reach.read_beam import QuickLook, quick_look, read_beam
from boomwright.reach.readings import BeamReadings, Lobe, OverGround

__all__ = [
    "BeamReadings",
    "Lobe",
    "OverGround",
    "QuickLook",
    "forward_lobes",
    "quick_look",
    "read_beam",
]
