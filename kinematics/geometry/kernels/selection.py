"""Put the element of a rank in its place, with no greater ones before it and no lesser behind."""

from kinematics.geometry.kernels.compiling import small_kernel


@small_kernel
def select(order, key, low, high, wanted):
    """Reorder order[low:high] so that the element of rank `wanted` by key stands in its place."""
    high -= 1
    while low < high:
        pivot = key[order[(low + high) // 2]]
        i, j = low, high
        while i <= j:
            while key[order[i]] < pivot:
                i += 1
            while key[order[j]] > pivot:
                j -= 1
            if i <= j:
                order[i], order[j] = order[j], order[i]
                i += 1
                j -= 1
        if wanted <= j:
            high = j
        elif wanted >= i:
            low = i
        else:
            return
