"""Weighted least squares for a handful of unknowns, by the normal equations and Cholesky's method."""

from __future__ import annotations

import math
from collections.abc import Sequence

_SMALLEST_PIVOT = 1e-4  # of the column's own square: below it two columns say the same


def solve(
    rows: Sequence[Sequence[float]], values: Sequence[float], weights: Sequence[float] | None = None
) -> list[float] | None:
    """The x that makes rows · x nearest to *values*, each row counting by its weight (1 by default).

    None where the rows do not determine every unknown. Raises ValueError for lists of other lengths.
    """
    if len(rows) != len(values) or (weights is not None and len(weights) != len(rows)):
        raise ValueError("as many values and weights as rows are needed")
    unknowns = len(rows[0]) if rows else 0
    if not unknowns or len(rows) < unknowns:
        return None
    weight = weights or [1.0] * len(rows)
    normal = [[math.fsum(w * row[i] * row[j] for row, w in zip(rows, weight, strict=True)) for j in range(unknowns)]
              for i in range(unknowns)]
    right = [math.fsum(w * row[i] * value for row, value, w in zip(rows, values, weight, strict=True))
             for i in range(unknowns)]
    lower = _cholesky(normal)
    return None if lower is None else _substitute(lower, right)


def _cholesky(matrix: list[list[float]]) -> list[list[float]] | None:
    """The lower triangle L with L Lᵀ = *matrix*; None where it is singular, or nearly."""
    size = len(matrix)
    lower = [[0.0] * size for _ in range(size)]
    for i in range(size):
        for j in range(i + 1):
            rest = matrix[i][j] - math.fsum(lower[i][k] * lower[j][k] for k in range(j))
            if i == j:
                if matrix[i][i] <= 0 or rest <= _SMALLEST_PIVOT * matrix[i][i]:
                    return None
                lower[i][i] = math.sqrt(rest)
            else:
                lower[i][j] = rest / lower[j][j]
    return lower


def _substitute(lower: list[list[float]], right: list[float]) -> list[float]:
    size = len(right)
    middle = [0.0] * size
    for i in range(size):
        middle[i] = (right[i] - math.fsum(lower[i][k] * middle[k] for k in range(i))) / lower[i][i]
    found = [0.0] * size
    for i in reversed(range(size)):
        found[i] = (middle[i] - math.fsum(lower[k][i] * found[k] for k in range(i + 1, size))) / lower[i][i]
    return found
