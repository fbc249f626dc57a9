#!/usr/bin/env python3
"""Solves the dense systems of the workload with numerical libraries, for comparison with `cargo bench --bench solve`.

    LEVAMEN_SYSTEMS=systems.bin cargo bench -p levamen-balance --bench solve
    pip install numpy scipy sympy        # scipy brings HiGHS
    python3 crates/balance/benches/peers.py systems.bin

What each is given: the exact solver of the bench gets facts, which are lists of terms, and finds every figure of the dough,
sums included. The peers here get dense matrices ready made, of the weights alone. numpy is measured a second time from lists
of terms, as the exact solver has them, all in one long array: it then fills its matrices too. Times are medians of some runs.
"""

import sys
import time
from collections import defaultdict
from fractions import Fraction
from statistics import median

import numpy


def read(path):
    numbers = numpy.fromfile(path, dtype="<f8")
    systems, at = [], 0
    while at < len(numbers):
        size = int(numbers[at])
        matrix = numbers[at + 1 : at + 1 + size * size].reshape(size, size)
        right = numbers[at + 1 + size * size : at + 1 + size * size + size]
        systems.append((matrix, right))
        at += 1 + size * size + size
    return systems


def timed(work, count, runs=5):
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return median(times) / count * 1e9


def fraction_solve(matrix, right):
    """Gauss elimination over exact fractions."""
    rows = [[Fraction(x).limit_denominator(10**9) for x in row] + [Fraction(b)] for row, b in zip(matrix, right)]
    size = len(rows)
    for column in range(size):
        pivot = next(row for row in range(column, size) if rows[row][column])
        rows[column], rows[pivot] = rows[pivot], rows[column]
        for row in range(size):
            if row != column and rows[row][column]:
                factor = rows[row][column] / rows[column][column]
                rows[row] = [a - factor * b for a, b in zip(rows[row], rows[column])]
    return [rows[i][size] / rows[i][i] for i in range(size)]


def main():
    systems = read(sys.argv[1])
    by_size = defaultdict(list)
    for matrix, right in systems:
        by_size[len(right)].append((matrix, right))
    batches = [
        (numpy.array([m for m, _ in group]), numpy.array([r for _, r in group])[:, :, None])
        for group in by_size.values()
    ]
    print(f"{len(systems)} systems of {min(by_size)} to {max(by_size)} unknowns; ns a system")

    def batched():
        for matrices, rights in batches:
            numpy.linalg.solve(matrices, rights)

    print(f"numpy, batched dense solve, f64   {timed(batched, len(systems)):12.0f}")

    lists = []
    for matrices, rights in batches:
        flat = numpy.flatnonzero(matrices)
        lists.append((matrices.shape, flat, matrices.reshape(-1)[flat], rights))

    def filled():
        for shape, flat, values, rights in lists:
            matrices = numpy.zeros(shape)
            matrices.reshape(-1)[flat] = values
            numpy.linalg.solve(matrices, rights)

    print(f"numpy, the same from terms        {timed(filled, len(systems)):12.0f}")
    sample = systems[:200]
    print(f"exact fractions in Python         {timed(lambda: [fraction_solve(*s) for s in sample], len(sample), 3):12.0f}")
    try:
        from scipy.optimize import linprog

        few = systems[:100]

        def highs():
            for matrix, right in few:
                linprog(numpy.zeros(len(right)), A_eq=matrix, b_eq=right, bounds=(None, None), method="highs")

        print(f"HiGHS, through scipy              {timed(highs, len(few), 3):12.0f}")
    except ImportError:
        print("HiGHS: scipy is not installed")
    try:
        import sympy

        few = systems[:10]

        def general():
            for matrix, right in few:
                exact = sympy.Matrix([[sympy.Rational(Fraction(x).limit_denominator(10**9)) for x in row] for row in matrix])
                exact.LUsolve(sympy.Matrix([sympy.Rational(Fraction(b)) for b in right]))

        print(f"sympy, exact rationals            {timed(general, len(few), 1):12.0f}")
    except ImportError:
        print("sympy is not installed")


main()
