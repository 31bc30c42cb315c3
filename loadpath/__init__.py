"""Wheel loads through a suspension cradle: loads, paths, stresses, stiffness and mass from one case file."""

__version__ = "0.1.0"
