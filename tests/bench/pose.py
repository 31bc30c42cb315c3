"""Kinematic poses a minute, measured on this machine. Prints; asserts nothing.

python tests/bench/pose.py
"""

from __future__ import annotations

import os
import sys
from dataclasses import replace
from pathlib import Path

# Before numpy is imported: batches of small matrices are slower on several threads.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests"), str(Path(__file__).parent)]

import numpy as np  # noqa: E402
from run import say, timed  # noqa: E402

from loadpath.case import read_case  # noqa: E402
from loadpath.model import Model  # noqa: E402
from loadpath.pose import Poses, make_mechanism, pose_many, wheel_angles  # noqa: E402
from loadpath.sweep import struts, turns  # noqa: E402

POSES = 1000


def left_side(model: Model) -> Model:
    """An axle without its right wheel and all that goes with it, and without its anti-roll bar."""
    gone = {
        p for p in model.parts if p.endswith("_r") or p.startswith(("anti_roll_bar", "drop_link", "bar_link"))
    }
    return replace(
        model,
        parts={n: p for n, p in model.parts.items() if n not in gone},
        joints={n: j for n, j in model.joints.items() if not gone & set(j.between)},
        force_elements={n: e for n, e in model.force_elements.items() if not gone & set(e.between)},
        wheels={n: w for n, w in model.wheels.items() if w.part not in gone},
        sensors={},
        masses={},
    )


def told(poses: Poses) -> object:
    """Camber, toe, motion ratios and the angle of every joint."""
    return wheel_angles(poses), struts(poses), turns(poses)


def measure(name: str, model: Model) -> None:
    mechanism = make_mechanism(model)
    rng = np.random.default_rng(0)
    limits = [model.wheels[w].travel() for w in mechanism.wheels] + [(-60.0, 60.0)] * len(mechanism.racks)
    targets = np.array([rng.uniform(lo, hi, POSES) for lo, hi in limits]).T
    alone = timed(lambda: pose_many(mechanism, targets), least=2.0)
    whole = timed(lambda: told(pose_many(mechanism, targets)), least=2.0)
    unknowns = mechanism.equations.freedom.shape[1]
    say(
        f"{name:24} {unknowns:3} unknowns: {60 * POSES / alone:9,.0f} poses a minute with velocities, "
        f"{60 * POSES / whole:9,.0f} with camber, toe, motion ratio and all joint angles (must 50,000, aim 200,000)"
    )


if __name__ == "__main__":
    for case in ("light_van_rear", "town_car_front"):
        model = read_case(ROOT / "cases" / f"{case}.toml").model
        measure(f"{case}, one side", left_side(model))
        measure(f"{case}, axle", model)
