"""Delaunay triangulation by divide and conquer, with exact predicates.

The method is that of Guibas and Stolfi, "Primitives for the manipulation of general subdivisions and the
computation of Voronoi diagrams", ACM Transactions on Graphics 4 (1985): n log n whatever the points.
Edges are numbered in pairs: e and e ^ 1 are the two directions of one edge.
"""

from evenbed.engine.exact import Spot, is_in_circle, turn

Triangle = tuple[int, int, int]


def triangles_from_spots(spots: list[Spot]) -> list[Triangle]:
    """The triangles over distinct spots, each anticlockwise, as indices.

    `spots` must be sorted and without doubles. Fewer than three spots, or spots all on one line, give none.
    Where four or more lie on one circle any of their triangulations may come; `cells` makes the answer one.
    """
    if len(spots) < 3:
        return []
    mesh = _Mesh(spots)
    mesh.triangulate(0, len(spots))
    return mesh.triangles()


class _Mesh:
    """Edges by their origin and their neighbours round it: `after` anticlockwise, `before` clockwise."""

    def __init__(self, spots: list[Spot]) -> None:
        self.spots = spots
        self.origin: list[int] = []
        self.after: list[int] = []
        self.before: list[int] = []
        self.gone: set[int] = set()

    def edge(self, start: int, end: int) -> int:
        """A new edge between two spots, joined to nothing yet; its direction from start to end."""
        e = len(self.origin)
        self.origin += (start, end)
        self.after += (e, e + 1)
        self.before += (e, e + 1)
        return e

    def splice(self, a: int, b: int) -> None:
        """Join or part the rings of edges round the origins of a and b: the one operation everything is built of."""
        after, before = self.after, self.before
        next_a, next_b = after[a], after[b]
        after[a], after[b] = next_b, next_a
        before[next_a], before[next_b] = b, a

    def connect(self, a: int, b: int) -> int:
        """A new edge from the end of a to the origin of b, with one face to their left."""
        e = self.edge(self.origin[a ^ 1], self.origin[b])
        self.splice(e, self.before[a ^ 1])
        self.splice(e ^ 1, b)
        return e

    def remove(self, e: int) -> None:
        """Take the edge out of the mesh."""
        self.splice(e, self.before[e])
        self.splice(e ^ 1, self.before[e ^ 1])
        self.gone.add(e & ~1)

    def turn_at(self, spot: int, e: int) -> int:
        """Positive where the spot lies left of the edge."""
        return turn(self.spots[self.origin[e]], self.spots[self.origin[e ^ 1]], self.spots[spot])

    def is_in_circle(self, a: int, b: int, c: int, d: int) -> bool:
        """True where spot d lies strictly inside the circle through a, b, c."""
        spots = self.spots
        return is_in_circle(spots[a], spots[b], spots[c], spots[d])

    def triangulate(self, low: int, high: int) -> tuple[int, int]:
        """Triangulate spots low..high-1; the hull edges out of the leftmost (left hand) and rightmost spot."""
        if high - low == 2:
            e = self.edge(low, low + 1)
            return e, e ^ 1
        if high - low == 3:
            return self.three(low)
        middle = (low + high) // 2
        return self.merge(self.triangulate(low, middle), self.triangulate(middle, high))

    def three(self, low: int) -> tuple[int, int]:
        """Two edges and, unless the spots stand on one line, the third."""
        a, b = self.edge(low, low + 1), self.edge(low + 1, low + 2)
        self.splice(a ^ 1, b)
        side = turn(*self.spots[low : low + 3])
        if side == 0:
            return a, b ^ 1
        c = self.connect(b, a)
        return (a, b ^ 1) if side > 0 else (c ^ 1, c)

    def merge(self, left: tuple[int, int], right: tuple[int, int]) -> tuple[int, int]:
        """One triangulation of two that stand side by side, by their hull edges."""
        (left_outer, left_inner), (right_inner, right_outer) = left, right
        left_inner, right_inner = self.lower_tangent(left_inner, right_inner)
        base = self.connect(right_inner ^ 1, left_inner)
        if self.origin[left_inner] == self.origin[left_outer]:
            left_outer = base ^ 1
        if self.origin[right_inner] == self.origin[right_outer]:
            right_outer = base
        self.zip_up(base)
        return left_outer, right_outer

    def lower_tangent(self, left: int, right: int) -> tuple[int, int]:
        """The edges at which the lowest line under both halves touches them."""
        while True:
            if self.turn_at(self.origin[right], left) > 0:
                left = self.before[left ^ 1]
            elif self.turn_at(self.origin[left], right) < 0:
                right = self.after[right ^ 1]
            else:
                return left, right

    def zip_up(self, base: int) -> None:
        """Join the two halves from the base upwards, removing edges that the other half breaks."""
        while True:
            left = self.candidate(base, self.after[base ^ 1], self.after)
            right = self.candidate(base, self.before[base], self.before)
            if left is None and right is None:
                return
            if left is None or (right is not None and self.right_wins(left, right)):
                base = self.connect(right, base ^ 1)  # type: ignore[arg-type]
            else:
                base = self.connect(base ^ 1, left ^ 1)

    def candidate(self, base: int, e: int, following: list[int]) -> int | None:
        """The next edge up on one side that the circle test leaves; None where there is no higher one."""
        origin = self.origin
        if self.turn_at(origin[e ^ 1], base) >= 0:
            return None
        while self.is_in_circle(origin[base ^ 1], origin[base], origin[e ^ 1], origin[following[e] ^ 1]):
            upper = following[e]
            self.remove(e)
            e = upper
        return e

    def right_wins(self, left: int, right: int) -> bool:
        """True where the right-hand candidate makes the next triangle."""
        origin = self.origin
        return self.is_in_circle(origin[left ^ 1], origin[left], origin[right], origin[right ^ 1])

    def triangles(self) -> list[Triangle]:
        """Every triangle of the mesh, once."""
        found: list[Triangle] = []
        seen = [False] * len(self.origin)
        for e in range(len(self.origin)):
            if seen[e] or (e & ~1) in self.gone:
                continue
            f = self.before[e ^ 1]
            g = self.before[f ^ 1]
            if self.before[g ^ 1] == e and self.turn_at(self.origin[g], e) > 0:
                seen[e] = seen[f] = seen[g] = True
                found.append((self.origin[e], self.origin[f], self.origin[g]))
        return found
