"""Weights of signs, fitted to labelled lines by logistic regression."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

HUNDREDTHS = 100
SEEN_AT_LEAST = 2
"""A sign that stood in fewer lines is left out."""
WORTH_KEEPING = 6
"""A sign none of whose weights comes to so many hundredths is left out."""


def weighed(
    lit: Sequence[Collection[str]], meant: Sequence[int], ways: int, kept_small: float
) -> dict[str, tuple[int, ...]]:
    """Fit a weight of each sign for each of `ways`, in whole hundredths.

    "" is every line's. `kept_small` is how strongly weights are held near nothing (an
    L2 penalty).
    """
    counted = Counter(sign for signs in lit for sign in signs)
    known = sorted(sign for sign, times in counted.items() if times >= SEEN_AT_LEAST)
    place = {sign: at for at, sign in enumerate(known)}
    rows = [sorted(place[sign] for sign in signs if sign in place) for signs in lit]
    ends = np.cumsum([0, *map(len, rows)])
    columns = np.array([at for row in rows for at in row])
    matrix = csr_matrix(
        (np.ones(len(columns)), columns, ends), shape=(len(rows), len(known))
    )
    fitted = _fitted(matrix, np.eye(ways)[np.array(meant)], kept_small)
    whole = np.rint(fitted * HUNDREDTHS).astype(int)
    table = {"": tuple(map(int, whole[-1]))}
    for sign, at in place.items():
        if abs(whole[at]).max() >= WORTH_KEEPING:
            table[sign] = tuple(map(int, whole[at]))
    return table


def _fitted(
    lit: csr_matrix, meant: NDArray[np.float64], kept_small: float
) -> NDArray[np.float64]:
    shape = (lit.shape[1] + 1, meant.shape[1])

    def loss(flat: NDArray[np.float64]) -> tuple[float, NDArray[np.float64]]:
        weights = flat.reshape(shape)
        sums = lit @ weights[:-1] + weights[-1]
        sums -= sums.max(axis=1, keepdims=True)
        raised = np.exp(sums)
        chance = raised / raised.sum(axis=1, keepdims=True)
        cost = -float(np.log(chance[meant > 0]).sum())
        cost += kept_small / 2 * float((weights[:-1] ** 2).sum())
        wrong = chance - meant
        slope = np.vstack(
            [lit.T @ wrong + kept_small * weights[:-1], wrong.sum(axis=0)]
        )
        return cost, slope.ravel()

    start = np.zeros(shape[0] * shape[1])
    found = minimize(loss, start, jac=True, method="L-BFGS-B", options={"maxiter": 400})
    weights: NDArray[np.float64] = found.x.reshape(shape)
    return weights
