"""What the kinematics refuse, in words.

PoseError
├── Loose            parts that no joint and no driver holds
├── OverConstrained  wheels that cannot travel on their own; told by how much they miss
├── OutOfReach       a travel that cannot be reached; told where it stops and what binds
└── NoRest           no travel at which springs carry the load, or no data to find one
"""

from __future__ import annotations


class PoseError(Exception):
    """A suspension that cannot be posed as asked."""


class Loose(PoseError):
    """Parts move though nothing drives them; `motions` names, for each motion, the parts that take part in it."""

    def __init__(self, motions: tuple[str, ...]) -> None:
        self.motions = motions
        super().__init__(
            f"can move while wheels and racks stand still: {'; '.join(motions)}. A joint is missing, nothing joins "
            "the part, a steering rack lacks rack = true, or bushings in line let it turn "
            '(moves_as = "fixed" holds it)'
        )


class OverConstrained(PoseError):
    """Joints leave the wheels less freedom than their travels need."""


class OutOfReach(PoseError):
    """The linkage stops before a pose."""


class NoRest(PoseError):
    """No travel balances the loads."""
