"""What the frame refuses, in words.

FrameError
├── Mechanism          something moves that nothing holds
├── NearlyIncompatible ideal joints that almost contradict each other
└── IllConditioned     the equations cannot be solved with any trust
"""

from __future__ import annotations


class FrameError(Exception):
    """A model that cannot be solved as it stands."""


class Mechanism(FrameError):
    """Parts or nodes that move without resistance; `motions` are sentences that name them."""

    def __init__(self, motions: tuple[str, ...]) -> None:
        self.motions = motions
        super().__init__("the model is a mechanism:\n" + "\n".join(f"  {m}" for m in motions))


class NearlyIncompatible(FrameError):
    """A group of ideal joints whose constraints are almost dependent."""


class IllConditioned(FrameError):
    """Scaled condition number beyond the limit."""
