"""The occlusal plane of each arch: plane and sphere through its cusps, and teeth out of line."""
