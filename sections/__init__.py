"""Cross-sections: from a shape or a traced outline to properties and stresses. Usable on its own."""

from sections.result import ACTIONS, Section

__all__ = ["ACTIONS", "Section"]
