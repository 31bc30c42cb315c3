"""The load path told: cuts and shares, a load followed through a part, free bodies, energy, what if."""

from loadpath.trace.beneath import BESIDE, LENGTH, MOVEMENT, POSE, TABLE
from loadpath.trace.changes import dangling, with_stiffness, without
from loadpath.trace.connections import Connection, connections, reverse
from loadpath.trace.cuts import (
    NO_NET,
    Cut,
    Flow,
    Shares,
    cut_round,
    flow_through,
    shares_along,
    standard_cuts,
    stands,
)
from loadpath.trace.energy import SPLIT, Energies, strain_energies
from loadpath.trace.errors import TraceError
from loadpath.trace.freebody import LOAD, MASS, Action, closing_error, free_bodies, moved, total, worth
from loadpath.trace.measure import DIRECTIONS, Measure, forces_along, moments_about, pick
from loadpath.trace.naming import find
from loadpath.trace.sources import Source
from loadpath.trace.standing import followable, outgoing
from loadpath.trace.through import Contributions, contributions
from loadpath.trace.unit_loads import Input, UnitLoads, unit_loads

__all__ = [
    "BESIDE",
    "DIRECTIONS",
    "LENGTH",
    "LOAD",
    "MASS",
    "MOVEMENT",
    "NO_NET",
    "POSE",
    "SPLIT",
    "TABLE",
    "Action",
    "Connection",
    "Contributions",
    "Cut",
    "Energies",
    "Flow",
    "Input",
    "Measure",
    "Shares",
    "Source",
    "TraceError",
    "UnitLoads",
    "closing_error",
    "connections",
    "contributions",
    "cut_round",
    "dangling",
    "find",
    "flow_through",
    "followable",
    "forces_along",
    "free_bodies",
    "moments_about",
    "moved",
    "outgoing",
    "pick",
    "reverse",
    "shares_along",
    "standard_cuts",
    "stands",
    "strain_energies",
    "total",
    "unit_loads",
    "with_stiffness",
    "without",
    "worth",
]
