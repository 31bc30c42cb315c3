"""From pairs of blocks to all blocks and back."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array

from loadpath.frame.mesh import Mesh

Array = NDArray[np.float64]


def pairs_of(block: Array, ends: NDArray[np.intp]) -> Array:
    """(n, 12, nc) freedoms of two blocks each, from (nb, 6, nc)."""
    both: Array = block[ends].reshape(len(ends), 12, block.shape[-1])
    return both


def onto_blocks(mesh: Mesh, blocks: NDArray[np.intp], forces: Array) -> Array:
    """Sum (n, 12, nc) forces at two blocks each onto (6 nb, nc)."""
    n, nc = len(blocks), forces.shape[-1]
    ones, columns = np.ones(2 * n), np.arange(2 * n)
    sums = csr_array((ones, (blocks.ravel(), columns)), shape=(len(mesh.owners), 2 * n))
    total: Array = np.asarray(sums @ forces.reshape(2 * n, 6 * nc))
    return total.reshape(-1, nc)
