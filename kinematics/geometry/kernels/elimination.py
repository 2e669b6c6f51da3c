"""Systems of equations solved by elimination: symmetric ones that are mostly zero, and others."""

from kinematics.geometry.kernels.compiling import small_kernel


@small_kernel
def eliminate(work, right, columns, diagonal, loose):
    """Solve work x = right in place, where work is symmetric and no direction has less than none.

    work: (n, n), only its upper half is read and nothing of it is left; right: (n,), becomes x;
    columns: (n,) int64 and diagonal: (n,), scratch. Returns whether every pivot is greater than a
    part `loose` of what it was before the others were eliminated; ends at one that is not.
    """
    n = len(right)
    for k in range(n):
        diagonal[k] = work[k, k]
    for k in range(n):
        pivot = work[k, k]
        if pivot <= loose * diagonal[k]:
            return False
        count = 0
        for j in range(k + 1, n):
            if work[k, j] != 0.0:
                columns[count] = j
                count += 1
        for a in range(count):
            i = columns[a]
            factor = work[k, i] / pivot
            for b in range(a, count):
                work[i, columns[b]] -= factor * work[k, columns[b]]
            right[i] -= factor * right[k]
    for k in range(n - 1, -1, -1):
        total = right[k]
        for j in range(k + 1, n):
            total -= work[k, j] * right[j]
        right[k] = total / work[k, k]
    return True


@small_kernel
def eliminate_exchanging(work, right):
    """Solve work x = right in place with row exchanges; work: (n, n), nothing of it is left."""
    n = len(right)
    for k in range(n):
        best = k
        for i in range(k + 1, n):
            if abs(work[i, k]) > abs(work[best, k]):
                best = i
        if best != k:
            for j in range(k, n):
                work[k, j], work[best, j] = work[best, j], work[k, j]
            right[k], right[best] = right[best], right[k]
        for i in range(k + 1, n):
            if work[i, k] != 0.0:
                factor = work[i, k] / work[k, k]
                for j in range(k + 1, n):
                    work[i, j] -= factor * work[k, j]
                right[i] -= factor * right[k]
    for k in range(n - 1, -1, -1):
        total = right[k]
        for j in range(k + 1, n):
            total -= work[k, j] * right[j]
        right[k] = total / work[k, k]
