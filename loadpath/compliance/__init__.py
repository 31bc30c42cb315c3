"""Elasto-kinematics: how wheels give way in toe, camber and position under small loads, and what gives way."""

from loadpath.compliance.answers import (
    ANSWERS,
    TOGETHER,
    Answer,
    Answers,
    Loaded,
    answers_of,
    partners,
    reciprocity,
)
from loadpath.compliance.figures import FIGURES, Figure, alike, picked
from loadpath.compliance.loads import LOADS, UnitLoad
from loadpath.compliance.rigid import GROUPS, Group, groups_of, singles_of
from loadpath.compliance.shares import Share, Shares, shares_of
from loadpath.compliance.standing import Ride, posed_at, standing_wheels

__all__ = [
    "ANSWERS",
    "FIGURES",
    "GROUPS",
    "LOADS",
    "TOGETHER",
    "Answer",
    "Answers",
    "Figure",
    "Group",
    "Loaded",
    "Ride",
    "Share",
    "Shares",
    "UnitLoad",
    "alike",
    "answers_of",
    "groups_of",
    "partners",
    "picked",
    "posed_at",
    "reciprocity",
    "shares_of",
    "singles_of",
    "standing_wheels",
]
