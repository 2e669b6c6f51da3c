"""Rigid transforms, curves, triangle meshes, trees over triangles, compiled kernels."""
