"""Statements that several kinds of load case make of themselves."""

from __future__ import annotations

ONE_SIDED = "an axle is hit on one side only: what turns the body in roll and yaw is not in this case"
OTHER_AXLE = (
    "the field is that of the axle that is hit; it acts on the masses of the other axle's module as well"
)
ELSEWHERE = "no wheel of the case is among those that are hit"

NO_TWIST = "no roll stiffness is given: the anti-roll bar's twist is not in this case"
ONE_TRAVELS = "the twist of an anti-roll bar by the travel of one wheel is not in this case"
TWO_AXLES = (
    "front and rear wheels travel against each other: with both axles in the case, the twist of the anti-roll "
    "bars by that travel is not in it"
)

UNTWISTED = frozenset({NO_TWIST, ONE_TRAVELS, TWO_AXLES})
"""Those that do not hold where the pose says how far each wheel travels."""
