"""How much of an answer comes from where: what is gone when a group is made rigid.

With c the answer as built, c_g with group g rigid and c_0 with everything rigid: a group brings c − c_g. What the
wheel does on its springs with everything rigid is c_0; what the groups bring then adds up to c − c_0 exactly
where the forces do not depend on what gives way. Elsewhere the load goes other ways when something is stiffer,
and a remainder is left.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.compliance.answers import Answers, Loaded, answers_of
from loadpath.compliance.rigid import Group, all_rigid, groups_of
from loadpath.frame import FrameError
from loadpath.model import Model

Array = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Share:
    """What one group brings.

    answers : with the group rigid; None where that model cannot be solved. reason : why not.
    """

    group: Group
    answers: Answers | None
    reason: str = ""


@dataclass(frozen=True, eq=False)
class Shares:
    """Answers of one model with what each group brings to them.

    base : as built. rigid : with everything rigid, None where that cannot be solved; why_not : the reason.
    """

    base: Answers
    shares: tuple[Share, ...]
    rigid: Answers | None
    why_not: str = ""

    def brought(self, how: Loaded) -> Array:
        """(ng, nw, na, nl) what each group brings, in shown units; NaN where it is not known."""
        base = self.base.shown(how)
        nothing = np.full_like(base, np.nan)
        found = [nothing if s.answers is None else base - s.answers.shown(how) for s in self.shares]
        return np.array(found).reshape(-1, *base.shape)

    def on_springs(self, how: Loaded) -> Array:
        """(nw, na, nl) what is left with everything rigid, in shown units."""
        base = self.base.shown(how)
        return np.full_like(base, np.nan) if self.rigid is None else self.rigid.shown(how)

    def remainder(self, how: Loaded) -> Array:
        """(nw, na, nl) as built, less what everything rigid leaves, less the sum of what the groups bring."""
        rest: Array = self.base.shown(how) - self.on_springs(how) - self.brought(how).sum(axis=0)
        return rest


def shares_of(model: Model, groups: Sequence[Group] | None = None) -> Shares:
    """Make each group rigid in turn; the six groups where none are given.

    Raises
    ------
    FrameError : where the model as built cannot be solved.
    """
    chosen = groups_of(model) if groups is None else groups
    base = answers_of(model)
    shares = [Share(group, *_try(group.stiffen, model)) for group in chosen]
    return Shares(base, tuple(shares), *_try(all_rigid, model))


def _try(stiffen: Callable[[Model], Model], model: Model) -> tuple[Answers | None, str]:
    try:
        return answers_of(stiffen(model)), ""
    except FrameError as error:
        return None, " ".join(str(error).split())
