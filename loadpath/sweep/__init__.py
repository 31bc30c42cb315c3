"""What wheels, joints, struts and shafts do over travel and steer, from many poses."""

from loadpath.sweep.articulation import Shaft, Turn, shafts, turns
from loadpath.sweep.instant import Instant, RollCentre, instants, roll_centres
from loadpath.sweep.limits import Limited, limited
from loadpath.sweep.sensors import levers
from loadpath.sweep.steering import Steering, steering
from loadpath.sweep.struts import Strut, WheelSpring, struts, wheel_springs
from loadpath.sweep.sweep import MOTIONS, Motion, Sweep, sweep

__all__ = [
    "MOTIONS",
    "Instant",
    "Limited",
    "Motion",
    "RollCentre",
    "Shaft",
    "Steering",
    "Strut",
    "Sweep",
    "Turn",
    "WheelSpring",
    "instants",
    "levers",
    "limited",
    "roll_centres",
    "shafts",
    "steering",
    "struts",
    "sweep",
    "turns",
    "wheel_springs",
]
