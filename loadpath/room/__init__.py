"""Room: what wheels and half-shafts sweep, how near it comes to members, and how far their sections may grow."""

from loadpath.room.clearance import EXACT, FAR, Clearance, WheelPose, clearances_of
from loadpath.room.growth import GROWTH, MOST, WAYS, FreeWidth, room_of
from loadpath.room.movers import Mover, movers_of, unknown_of
from loadpath.room.silhouette import Silhouette, silhouettes_of
from loadpath.room.sweep import MODES

__all__ = [
    "EXACT",
    "FAR",
    "GROWTH",
    "MODES",
    "MOST",
    "WAYS",
    "Clearance",
    "FreeWidth",
    "Mover",
    "Silhouette",
    "WheelPose",
    "clearances_of",
    "movers_of",
    "room_of",
    "silhouettes_of",
    "unknown_of",
]
