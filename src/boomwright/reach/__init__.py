"""Reach: lobes over the owner's ground, and where they go."""

from boomwright.reach.readings import BeamReadings, Lobe, OverGround

__all__ = ["BeamReadings", "Lobe", "OverGround"]
