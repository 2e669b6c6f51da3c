"""An arch: its triangle mesh, and which tooth each triangle belongs to."""
