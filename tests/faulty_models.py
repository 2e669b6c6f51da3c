"""OBJ and GLB files that cannot be used, each with a fragment of the message that refuses it.

Of each fault: the name of a file, its content, and the fragment.
"""

from tests import made_scans as made

OBJ = {
    "OBJ with a word": (
        "a.obj",
        made.obj().replace(b"40.0", b"x", 1),
        r"line 3 is 'x 0\.0 0\.0': wa",
    ),
    "OBJ with nan": ("a.obj", made.obj().replace(b"40.0", b"nan", 1), r"line 3 is 'nan 0\.0 0\.0'"),
    "OBJ with two coordinates": (
        "a.obj",
        made.obj().replace(b"40.0 ", b"", 1),
        r"line 3 is 'v 0\.0 0\.0'; wanted 'v' and 3 numbers",
    ),
    "OBJ with weights": (
        "a.obj",
        made.obj().replace(b"40.0", b"40.0 0 0 0.5 #", 1),
        r"line 3 .*perhaps with a weight of 1",
    ),
    "OBJ with a corner that is no vertex": (
        "a.obj",
        made.obj().replace(b"f 1 2 5", b"f 1 2 6"),
        r"line 7 has corner 6, but there are 5 vertices, counted from 1",
    ),
    "OBJ with corner 0": (
        "a.obj",
        made.obj().replace(b"f 1 2 5", b"f 0 2 5"),
        r"line 7 is 'f 0 2 5'; wanted 3 or more corners, counted from 1",
    ),
    "OBJ with a corner before all": (
        "a.obj",
        made.obj().replace(b"f 1 2 5", b"f -6 2 5"),
        r"line 7 is 'f -6 2 5'; wanted .* the last of the 5 vertices before it",
    ),
    "OBJ with a face of two": (
        "a.obj",
        made.obj().replace(b"f 2 3 5", b"f 2 3"),
        r"line 8 is 'f 2 3'; wanted 3 or more",
    ),
    "OBJ with half a corner": (
        "a.obj",
        made.obj().replace(b"f 1 2 5", b"f 1 2.5 5"),
        r"line 7 is 'f 1 2\.5 5'; wanted 'f' and 3 or more corners",
    ),
    "OBJ with a curve": (
        "a.obj",
        made.obj() + b"curv 0 1 2\n",
        r"line 11 is 'curv 0 1 2'; lines of",
    ),
    "OBJ of points": ("a.obj", b"v 1 2 3\n", r"OBJ file holds 1 vertices but no triangle"),
    "OBJ in one line": (
        "a.obj",
        b"v 1 2 3\nf " + b"1 " * 60_000,
        r"line 2 is 120002 bytes long; at most 100000 are accepted",
    ),
}

GLB = {
    "GLB broken off": ("a.glb", made.glb()[:-4], r"header says \d+ bytes, but the file has \d+"),
    "GLB of its mark alone": ("a.glb", b"glTF\2\0\0\0", r"says 0 bytes, but the file has 8"),
    "GLB of version 1": ("a.glb", made.glb(version=1), r"version 1; export it as version 2"),
    "GLB with a lying chunk": (
        "a.glb",
        made.glb()[:12] + b"\xff\xff\xff\x7f" + made.glb()[16:],
        r"the chunk at byte 12 says 2147483647 bytes, but \d+ are left",
    ),
    "GLB without JSON": ("a.glb", made.glb().replace(b"JSON", b"NOSJ"), r"first chunk is not JSON"),
    "GLB with broken JSON": ("a.glb", made.glb(b'{"asset": '), r"not valid JSON"),
    "GLB with deep JSON": ("a.glb", made.glb(b"[" * 99_999), r"not valid JSON"),
    "GLB with a list as JSON": ("a.glb", made.glb(b"[]"), r"its description is not a table"),
    "GLB with long JSON": (
        "a.glb",
        made.glb(b" " * 4_000_004),
        r"4000004 bytes long; at most 40000",
    ),
    "GLB with data elsewhere": (
        "a.glb",
        made.changed_glb("buffers", 0, "uri", to="https://x.example/jaw.bin"),
        r"its data are in 'https://x.example/jaw.bin'; no other file is opened",
    ),
    "GLB that is compressed": (
        "a.glb",
        made.changed_glb("extensionsRequired", to=["KHR_draco_mesh_compression"]),
        r"'KHR_draco_mesh_compression'; export it without compression",
    ),
    "GLB with an extension": (
        "a.glb",
        made.changed_glb("extensionsRequired", to=["EXT_x"]),
        r"needs the extension 'EXT_x'; export it without it",
    ),
    "GLB with a lying buffer": (
        "a.glb",
        made.changed_glb("buffers", 0, "byteLength", to=10**9),
        r"buffers\[0\]\.byteLength is 1000000000; wanted a whole number from 0 to 84",
    ),
    "GLB with a lying count": (
        "a.glb",
        made.changed_glb("accessors", 0, "count", to=9),
        r"accessors\[0\] announces 9 entries, but bufferViews\[0\] has 60 bytes of the 84",
    ),
    "GLB with a huge count": (
        "a.glb",
        made.changed_glb("accessors", 1, "count", to=10**12),
        r"accessors\[1\]\.count is 1000000000000; wanted a whole number from 0 to 84",
    ),
    "GLB without all of the data": (
        "a.glb",
        made.changed_glb("accessors", 0, "bufferView", to=...),
        r"not written out in full \(sparse or compressed\)",
    ),
    "GLB with places as bytes": (
        "a.glb",
        made.changed_glb("accessors", 0, "componentType", to=5121),
        r"accessors\[0\] is 'VEC3' of type 5121; wanted 'VEC3' of 5126",
    ),
    "GLB with a corner that is no vertex": (
        "a.glb",
        made.glb(binary=made.glb_tree()[1][:-2] + b"\5\0"),
        r"triangle 3 \(counted from 0\) has corner 5, but there are 5 vertices",
    ),
    "GLB of a strip": (
        "a.glb",
        made.changed_glb("meshes", 0, "primitives", 0, "mode", to=5),
        r"meshes\[0\]\.primitives\[0\] has mode 5, wanted 4 \(triangles\)",
    ),
    "GLB of lines": (
        "a.glb",
        made.changed_glb("meshes", 0, "primitives", 0, "mode", to=1),
        r"the GLB file holds 0 vertices but no triangle",
    ),
    "GLB with a node under itself": (
        "a.glb",
        made.changed_glb("nodes", 0, "children", to=[0]),
        r"nodes\[0\] hangs under more than one other",
    ),
    "GLB with a node that is not there": (
        "a.glb",
        made.changed_glb("scenes", 0, "nodes", to=[7]),
        r"nodes\[7\] is asked for, but there are 1 such entries",
    ),
    "GLB with a mesh that is not there": (
        "a.glb",
        made.changed_glb("nodes", 0, "mesh", to=-1),
        r"meshes\[-1\] is asked for",
    ),
    "GLB with a skeleton": ("a.glb", made.changed_glb("nodes", 0, "skin", to=0), r"by a skeleton"),
    "GLB with a short matrix": (
        "a.glb",
        made.changed_glb("nodes", 0, "matrix", to=[1.0]),
        r"nodes\[0\]\.matrix is not a list of 16 finite numbers",
    ),
    "GLB with a rotation of length 2": (
        "a.glb",
        made.changed_glb("nodes", 0, "rotation", to=[0, 0, 0, 2]),
        r"nodes\[0\]\.rotation is not of length 1",
    ),
    "GLB with far too many parts": (
        "a.glb",
        made.changed_glb("meshes", 0, "primitives", to=[{"mode": 1}] * 10_001),
        r"its scene shows more than 10000 parts",
    ),
}
