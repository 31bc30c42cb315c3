"""Built-in grades with the source of every figure."""

from loadpath.materials.grades import Grade, UnknownGrade, grade, grades, ids_of, names

__all__ = ["Grade", "UnknownGrade", "grade", "grades", "ids_of", "names"]
