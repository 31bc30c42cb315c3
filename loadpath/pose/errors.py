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
    """Parts move though nothing drives them; `motions` are sentences that name them."""

    def __init__(self, motions: tuple[str, ...]) -> None:
        self.motions = motions
        super().__init__("parts of the suspension are loose:\n" + "\n".join(f"  {m}" for m in motions))


class OverConstrained(PoseError):
    """Joints leave the wheels less freedom than their travels need."""


class OutOfReach(PoseError):
    """The linkage stops before a pose."""


class NoRest(PoseError):
    """No travel balances the loads."""
