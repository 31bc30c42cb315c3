"""What a pose has wound up and twisted by itself: bushings and the twist of a split part, as initial strain."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from loadpath.frame.blocks import onto_blocks
from loadpath.frame.system import System

Array = NDArray[np.float64]


def strain_push(system: System) -> Array:
    """(6 nb,) forces that the strained bushings and elements put on the blocks while these stand in the pose."""
    mesh, springs, beams = system.mesh, system.springs, system.beams
    wound = np.swapaxes(springs.relative, 1, 2) @ (springs.rates * springs.windup)[..., None]
    push = -onto_blocks(mesh, springs.blocks, wound)
    twisted = np.flatnonzero(mesh.elements.twist.any(axis=1))
    if len(twisted):
        held = beams.rigidity[twisted] @ mesh.elements.twist[twisted][..., None]
        ends = np.swapaxes(beams.relative[twisted], 1, 2) @ held
        push -= onto_blocks(mesh, mesh.elements.ends[twisted], np.swapaxes(system.turn[twisted], 1, 2) @ ends)
    strained: Array = push[:, 0]
    return strained
