"""Names of what can be changed in a model: as people say them, or as the case file writes them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from loadpath.model import BODY, Model
from loadpath.trace.errors import TraceError, unknown

Kind = Literal["joint", "strut", "member", "part", "body point"]


@dataclass(frozen=True)
class Named:
    """Something of a model that can be changed: its kind, and the names that lead to it."""

    kind: Kind
    names: tuple[str, ...]

    @property
    def title(self) -> str:
        return ".".join(self.names)


def find(model: Model, name: str) -> Named:
    """What a name means: a joint, strut or part, PART.MEMBER, body.POINT, or a key path of the case file.

    Raises
    ------
    TraceError : a name that is not there, or that means two things.
    """
    known = dict(_known(model))
    if name in known:
        return known[name]
    short: dict[str, list[str]] = {}
    for path in known:
        for form in _short_forms(path):
            short.setdefault(form, []).append(path)
    paths = short.get(name, [])
    if len(paths) > 1:
        raise TraceError(f"{name!r} means {' and '.join(paths)}: write one of these")
    if not paths:
        raise unknown("member, joint, strut or part", name, short)
    return known[paths[0]]


def _known(model: Model) -> Iterator[tuple[str, Named]]:
    for joint in model.joints:
        yield f"joints.{joint}", Named("joint", (joint,))
    for strut in model.force_elements:
        yield f"struts.{strut}", Named("strut", (strut,))
    for part in model.parts.values():
        yield f"parts.{part.name}", Named("part", (part.name,))
        if part.kind == "frame":
            for member in part.members:
                yield (
                    f"parts.{part.name}.members.{member.name}",
                    Named("member", (part.name, member.name)),
                )
    for point in model.body_mounts:
        yield f"body.{point}", Named("body point", (BODY, point))


def _short_forms(path: str) -> tuple[str, ...]:
    words = path.split(".")
    if words[0] == BODY:
        return ()
    return (".".join(w for k, w in enumerate(words) if k % 2),)
