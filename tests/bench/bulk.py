"""10 000 sets of dimensions of a shape at once against one by one, properties and stress. Prints ratios; asserts
nothing.

python tests/bench/bulk.py            all shapes that the wall engine serves
python tests/bench/bulk.py hat ...    some
"""

from __future__ import annotations

import os
import sys
import time
from pathlib import Path

# Before numpy is imported: small matrices are slower on several threads, for both sides of every ratio.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
sys.path[0] = str(Path(__file__).parents[2])

import numpy as np  # noqa: E402

from sections import SHAPES, bulk, bulk_stress, section, solve_walls  # noqa: E402

SETS, SINGLE, ROUNDS = 10_000, 100, 3
RANGES = {
    "rectangular tube": {"width": (40, 90), "height": (40, 90), "gauge": (1.2, 4)},
    "channel": {"width": (30, 60), "height": (60, 99), "gauge": (1.2, 4)},
    "lipped channel": {"width": (40, 60), "height": (60, 99), "lip": (14, 20), "gauge": (1.2, 3)},
    "hat": {"width": (60, 90), "height": (50, 80), "gauge": (1.2, 4), "flange": (16, 25)},
    "closed hat": {"width": (60, 90), "height": (50, 80), "gauge": (1.2, 4), "flange": (16, 25)},
    "two-shell box": {"width": (60, 90), "height": (60, 80), "upper_gauge": (1.2, 3)},
    "twin tube": {"width": (60, 80), "height": (40, 60), "gauge": (1.2, 3)},
    "fabricated box": {"width": (60, 90), "height": (50, 80), "top": (3, 5), "web": (2, 4), "inset": (4, 8)},
}


def measure(name: str) -> None:
    shape, rng = SHAPES[name], np.random.default_rng(0)
    sets = {key: rng.uniform(low, high, SETS) for key, (low, high) in RANGES[name].items()}
    singles = [{key: float(values[k]) for key, values in sets.items()} for k in range(SINGLE)]
    forces = rng.standard_normal((6, 10)) * [[2e4], [3e3], [3e3], [2e5], [4e5], [4e5]]
    whole, properties, at_once, stressed, single = [], [], [], [], []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        made = bulk(shape, **sets)
        at_once.append(time.perf_counter() - start)
        start = time.perf_counter()
        for given in singles:
            section(shape(**given))
        whole.append((time.perf_counter() - start) / SINGLE * SETS)
        start = time.perf_counter()
        for given in singles:
            walls = shape(**given).walls()
            assert walls is not None
            solve_walls(walls.nodes, walls.ends, walls.thickness, walls.seams, walls.seam_conductance)
        properties.append((time.perf_counter() - start) / SINGLE * SETS)
        start = time.perf_counter()
        bulk_stress(shape, forces, **sets)
        stressed.append(time.perf_counter() - start)
        start = time.perf_counter()
        for given in singles:
            section(shape(**given)).von_mises(forces).max(axis=0)
        single.append((time.perf_counter() - start) / SINGLE * SETS)
    best = min(at_once)
    sys.stdout.write(
        f"{name:17} {SETS} sets in {best:.2f} s, {made.graphs} graphs; one by one {min(whole):.1f} s as sections = "
        f"{min(whole) / best:.0f} x (must 50), {min(properties):.1f} s properties alone = "
        f"{min(properties) / best:.0f} x; peak stress under 10 forces in {min(stressed):.2f} s, one by one "
        f"{min(single):.1f} s = {min(single) / min(stressed):.0f} x\n"
    )


if __name__ == "__main__":
    for wanted in sys.argv[1:] or RANGES:
        measure(wanted)
