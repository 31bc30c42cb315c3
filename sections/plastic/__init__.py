"""Full plasticity of a section: moduli about any axis and the surface of axial force with both bending moments."""

from sections.plastic.surface import PlasticSurface, lines_surface, rings_surface

__all__ = ["PlasticSurface", "lines_surface", "rings_surface"]
