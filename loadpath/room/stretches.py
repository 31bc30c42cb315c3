"""Members as straight stretches with their faces, ready to be placed in poses."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loadpath.model import Member, Model
from loadpath.pose import Mechanism
from loadpath.room.faces import Faces, faces_of, paired

Array = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Stretches:
    """ne straight stretches of members, with nf faces in all.

    Attributes
    ----------
    members : (part, member) of each different member. member : (ne,) which of them a stretch belongs to.
    points : (ne,) names of the two ends. carriers : (ne, 2) that move them. at : (ne, 2, 3) ends at design height.
    axes : (ne, 2, 3) section axes y and z at design height.
    round : (ne,) [mm] from the line through its ends within which the outline lies.
    owner : (nf,) stretch of each face. near, far : (nf, 2, 2) its ends y, z at the first and the last end of the
        stretch, from the line. normal : (nf, 2). mitre : (nf, 2, 2) [mm] along x by which the face begins, and ends,
        later than the stretch, at both ends of the face.
    """

    members: tuple[tuple[str, str], ...]
    member: Ints
    points: tuple[tuple[str, str], ...]
    carriers: Ints
    at: Array
    axes: Array
    round: Array
    owner: Ints
    near: Array
    far: Array
    normal: Array
    mitre: Array

    def of_member(self, number: int) -> Stretches:
        """Those of one member, which keeps its number."""
        kept = np.flatnonzero(self.member == number)
        faces = np.flatnonzero(self.member[self.owner] == number)
        renumbered = np.zeros(len(self.member), dtype=np.intp)
        renumbered[kept] = np.arange(len(kept))
        return Stretches(
            members=self.members,
            member=self.member[kept],
            points=tuple(self.points[k] for k in kept),
            carriers=self.carriers[kept],
            at=self.at[kept],
            axes=self.axes[kept],
            round=self.round[kept],
            owner=renumbered[self.owner[faces]],
            near=self.near[faces],
            far=self.far[faces],
            normal=self.normal[faces],
            mitre=self.mitre[faces],
        )


def stretches_of(mechanism: Mechanism) -> Stretches:
    """Every segment of every member of the model."""
    model = mechanism.model
    names: list[tuple[str, str]] = []
    rows = [
        row for part in model.parts.values() for m in part.members for row in _segments(model, part.name, m)
    ]
    member, faces = [], []
    for row in rows:
        if row.name not in names:
            names.append(row.name)
        member.append(names.index(row.name))
        faces.append(row.faces())
    owner = np.repeat(np.arange(len(rows)), [len(f[0]) for f in faces])
    near, far, normal, mitre = (np.concatenate([f[k] for f in faces]) for k in range(4))
    return Stretches(
        members=tuple(names),
        member=np.array(member, dtype=np.intp),
        points=tuple(row.points for row in rows),
        carriers=np.array(
            [[mechanism.carrier(row.name[0], p) for p in row.points] for row in rows], dtype=np.intp
        ),
        at=np.array([row.at for row in rows]),
        axes=np.array([row.axes[1:] for row in rows]),
        round=np.array([max(_reach(f[0]), _reach(f[1])) for f in faces]),
        owner=owner,
        near=near,
        far=far,
        normal=normal,
        mitre=mitre,
    )


def _reach(ends: Array) -> float:
    return float(np.sqrt((ends**2).sum(axis=-1)).max())


@dataclass(frozen=True, eq=False)
class _Segment:
    """One stretch: ends, axes (3, 3) rows x, y, z, faces at both ends, cutting planes (2, 3) at them, offset (2,)."""

    name: tuple[str, str]
    points: tuple[str, str]
    at: Array
    axes: Array
    outline: tuple[Faces, Faces]
    planes: Array
    offset: Array

    def faces(self) -> tuple[Array, Array, Array, Array]:
        """near, far, normal, mitre of its faces."""
        near, far = (f.ends + self.offset for f in self.outline)
        planes = self.planes @ self.axes.T
        late = [-(ends @ n[1:]) / n[0] for ends, n in zip((near, far), planes, strict=True)]
        return near, far, self.outline[0].normal, np.stack(late, axis=1)


def _segments(model: Model, part: str, member: Member) -> Iterator[_Segment]:
    at = np.array([model.at(part, p) for p in member.path])
    along = np.diff(at, axis=0)
    along = along / np.linalg.norm(along, axis=1)[:, None]
    planes = np.concatenate([along[:1], along[:-1] + along[1:], along[-1:]])
    ups = np.broadcast_to(member.up, along.shape)
    for k, x in enumerate(along):
        z = ups[k] - (ups[k] @ x) * x
        z = z / np.linalg.norm(z)
        chain = member.sections[k]
        outline = paired(chain[0], chain[-1]) if len(chain) > 1 else (faces_of(chain[0]),) * 2
        yield _Segment(
            name=(part, member.name),
            points=(member.path[k], member.path[k + 1]),
            at=at[k : k + 2],
            axes=np.array([x, np.cross(z, x), z]),
            outline=(outline[0], outline[1]),
            planes=planes[k : k + 2],
            offset=member.offset,
        )
