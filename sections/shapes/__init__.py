"""Shapes by name. A new shape is one file here and one line below."""

from collections.abc import Mapping
from types import MappingProxyType

from sections.shapes.base import Shape
from sections.shapes.cast_box import CastBox
from sections.shapes.cast_cross import CastCross
from sections.shapes.cast_crossed_channel import CastCrossedChannel
from sections.shapes.cast_i import CastI
from sections.shapes.cast_ribbed_channel import CastRibbedChannel
from sections.shapes.cast_t import CastT
from sections.shapes.channel import Channel
from sections.shapes.closed_hat import ClosedHat
from sections.shapes.extruded_box import ExtrudedBox
from sections.shapes.fabricated_box import FabricatedBox
from sections.shapes.hat import Hat
from sections.shapes.hydroformed_tube import HydroformedTube
from sections.shapes.lipped_channel import LippedChannel
from sections.shapes.pinched_tube import PinchedTube
from sections.shapes.rectangular_tube import RectangularTube
from sections.shapes.round_tube import RoundTube
from sections.shapes.solid_rectangle import SolidRectangle
from sections.shapes.solid_round import SolidRound
from sections.shapes.traced import Traced
from sections.shapes.tube_with_plate import TubeWithPlate
from sections.shapes.twin_tube import TwinTube
from sections.shapes.two_shell_box import TwoShellBox

_ALL: tuple[type[Shape], ...] = (
    RoundTube,
    RectangularTube,
    PinchedTube,
    HydroformedTube,
    TubeWithPlate,
    TwinTube,
    ExtrudedBox,
    FabricatedBox,
    Channel,
    LippedChannel,
    Hat,
    ClosedHat,
    TwoShellBox,
    CastI,
    CastT,
    CastCross,
    CastBox,
    CastRibbedChannel,
    CastCrossedChannel,
    SolidRound,
    SolidRectangle,
    Traced,
)

SHAPES: Mapping[str, type[Shape]] = MappingProxyType({shape.name: shape for shape in _ALL})
"""Every shape class by the name that a case file uses."""

__all__ = [
    "SHAPES",
    "CastBox",
    "CastCross",
    "CastCrossedChannel",
    "CastI",
    "CastRibbedChannel",
    "CastT",
    "Channel",
    "ClosedHat",
    "ExtrudedBox",
    "FabricatedBox",
    "Hat",
    "HydroformedTube",
    "LippedChannel",
    "PinchedTube",
    "RectangularTube",
    "RoundTube",
    "Shape",
    "SolidRectangle",
    "SolidRound",
    "Traced",
    "TubeWithPlate",
    "TwinTube",
    "TwoShellBox",
]
