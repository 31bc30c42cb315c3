"""Where wheels and racks are asked to stand: within the full travel of the case, or a failure in words."""

from __future__ import annotations

from pathlib import Path

from loadpath.cli.failures import Failure
from loadpath.model import FULL_TRAVEL, Model


def check_places(path: Path, model: Model, jounce: float, rack: float) -> None:
    """All wheels at a jounce [mm] and all racks at a travel [mm].

    Raises
    ------
    Failure : beyond the full travel of one of them, or a rack that is not there.
    """
    for wheel in model.wheels.values():
        down, up = wheel.travel()
        if not down <= jounce <= up:
            raise Failure(
                f"{path.name}: --jounce {jounce:g}: {wheel.name} travels from {down:g} to {up:g} mm"
            )
    racks = [j for j in model.joints.values() if j.rack]
    if rack and not racks:
        raise Failure(f"{path.name}: --rack {rack:g}: no joint of the case has rack = true")
    for joint in racks:
        side = joint.travel or FULL_TRAVEL
        if not abs(rack) <= side:
            raise Failure(f"{path.name}: --rack {rack:g}: {joint.name} travels from {-side:g} to {side:g} mm")
