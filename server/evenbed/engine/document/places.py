"""Places on the drawing and in space, mm: x to the right, y up, z up."""

Point = tuple[float, float]
Point3 = tuple[float, float, float]
