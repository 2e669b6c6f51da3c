"""Scan files that cannot be used, each with a fragment of the message that refuses it.

Of each fault: the name of a file, its content, and the fragment.
"""

import struct

from tests import made_scans as made

_STL = made.ascii_stl()
_HEAD = made.ply_header("ascii")
_CUT = made.binary_ply()

OTHERS = {
    "nothing": ("a.stl", b"", r"is empty \(0 bytes\)"),
    "web page": ("a.stl", b"<!DOCTYPE html><html>", r"is not a mesh: .*web page \(HTML\)"),
    "XML": ("a.ply", b"<?xml version='1.0'?>", r"is not a mesh: its content is XML"),
    "ZIP": ("a.obj", b"PK\x03\x04 and so on", r"a ZIP archive; unpack it"),
    "gzip": ("a.ply", b"\x1f\x8b\x08 and so on", r"a gzip archive; unpack it"),
    "picture": ("a.stl", b"\x89PNG\r\n\x1a\n\0\0\0", r"a picture \(PNG\)"),
    "DICOM": ("a.stl", b"\0" * 128 + b"DICM" + b"\0" * 99, r"a DICOM file; export the surface"),
    "settings": ("a.stl", b"# case\ntitle = 'x'\n", r"settings \(TOML or the like\), not a scan"),
    "table of settings": ("a.obj", b"[guidance]\n", r"settings \(TOML or the like\), not a scan"),
    "glTF as text": ("a.glb", b'{"asset": 1}', r"JSON; a glTF scene must be exported as one GLB"),
    "UTF-16": ("a.obj", "v 1 2 3".encode("utf-16"), r"text in UTF-16; save it as plain text"),
    "mark of UTF-8": ("a.obj", b"\xef\xbb\xbfv 1 2 3", r"a byte-order mark; save it as plain text"),
    "prose": ("a.stl", b"Dear colleague,", r"text of a kind that is not known \(b'Dear colleague,"),
    "noise": ("a.glb", bytes(range(256)), r"binary data of a kind that is not known"),
    # the name and the content
    "PLY as STL": ("a.stl", made.ascii_ply(), r"is that of a PLY file, .*rename it to 'a\.ply'"),
    "STL as PLY": ("a.ply", made.binary_stl(), r"that of a STL file, .* ends with '\.ply'"),
    "OBJ as STL": ("a.stl", made.obj(), r"is that of an OBJ file, .*rename it to 'a\.obj'"),
    "GLB without ending": ("a", made.glb(), r"ends with ''; .*rename it to 'a\.glb'"),
}

STL = {
    "binary STL broken off in a triangle": (
        "a.stl",
        made.binary_stl()[:-30],
        r"announces 4 triangles, but there are 3 and 20 bytes of another: .*broken off",
    ),
    "binary STL broken off between triangles": (
        "a.stl",
        made.binary_stl()[:-50],
        r"announces 4 triangles, but there are 3: the file is broken off",
    ),
    "binary STL that says solid, broken off": (
        "a.stl",
        made.binary_stl(header=b"solid jaw")[:-1],
        r"announces 4 triangles, but there are 3 and 49 bytes",
    ),
    "binary STL with more": (
        "a.stl",
        made.binary_stl() + b"xyz",
        r"announces 4 triangles, but 3 bytes follow them",
    ),
    "binary STL with a lying count": (
        "a.stl",
        made.binary_stl(announced=4_000_000_000),
        r"announces 4000000000 triangles, but there are 4",
    ),
    "header of STL alone": ("a.stl", b"\0" * 50, r"50 bytes; a binary STL file has a header of 84"),
    "binary STL of nothing": (
        "a.stl",
        made.binary_stl(faces=made.FACES[:0]),
        r"binary STL file holds 0 vertices but no triangle",
    ),
    "STL with a word for a number": (
        "a.stl",
        _STL.replace(b"40.0", b"4o.0", 1),
        r"line 5 is 'vertex 4o\.0 0\.0 0\.0'; wanted 'vertex' and three finite numbers",
    ),
    "STL with nan": ("a.stl", _STL.replace(b"40.0", b"nan", 1), r"line 5 is 'vertex nan 0\.0"),
    "STL with two numbers": ("a.stl", _STL.replace(b"40.0", b"", 1), r"line 5 is 'vertex  0\.0"),
    "STL with too large a number": (
        "a.stl",
        _STL.replace(b"40.0", b"1e999", 1),
        r"corner '1e999 0\.0 0\.0' has a number that is too large",
    ),
    "STL with four corners": (
        "a.stl",
        _STL.replace(b"  endloop", b"vertex 1 2 3\n  endloop", 1),
        r"line 7 is 'vertex 1 2 3'; wanted 'endloop'",
    ),
    "STL without end": (
        "a.stl",
        _STL[: _STL.rindex(b"endsolid")],
        r"the text ends after line 29; wanted 'facet normal' .*or 'endsolid'",
    ),
    "STL broken off": ("a.stl", _STL[: _STL.index(b"endloop")], r"ends after line 6; wanted 'endl"),
    "STL with prose behind": (
        "a.stl",
        _STL + b"that is all",
        r"line 31 is 'that is all'; wanted 's",
    ),
    "STL of nothing": (
        "a.stl",
        b"solid x\nendsolid x\n",
        r"ASCII STL file holds 0 vertices but no",
    ),
}

PLY_HEADERS = {
    "PLY without end of header": (
        "a.ply",
        _HEAD[:90],
        r"no line 'end_header' in the first 90 bytes",
    ),
    "PLY of unknown format": (
        "a.ply",
        _HEAD.replace(b"ascii", b"binary_middle_endian"),
        r"line 2 of the header is 'format binary_middle_endian 1\.0'; wanted 'format' with ascii",
    ),
    "PLY without format": (
        "a.ply",
        _HEAD.replace(b"format ascii 1.0\n", b""),
        r"line 2 .*its format",
    ),
    "PLY with an unknown statement": (
        "a.ply",
        _HEAD.replace(b"comment", b"remark"),
        r"line 3 of the header is 'remark made'; wanted",
    ),
    "PLY with an unknown type": (
        "a.ply",
        _HEAD.replace(b"double z", b"real z"),
        r"line 7 .*type 'real' is not known; known: char, int8",
    ),
    "PLY with a property twice": (
        "a.ply",
        _HEAD.replace(b"double z", b"double y"),
        r"line 7 .*there is such a property already",
    ),
    "PLY with an element twice": (
        "a.ply",
        _HEAD.replace(b"element face 4", b"element vertex 4"),
        r"there is such an element already",
    ),
    "PLY without z": (
        "a.ply",
        _HEAD.replace(b"double z", b"double zz"),
        r"no element 'vertex' with z; wanted x, y and z",
    ),
    "PLY of points": (
        "a.ply",
        _HEAD[: _HEAD.index(b"element face")] + b"end_header\n",
        r"no element 'face' with a list 'vertex_indices'; export the surface",
    ),
    "PLY with another list": (
        "a.ply",
        made.ascii_ply(extra_face="property list uchar float texcoord\n"),
        r"element 'face' has a list 'texcoord'; lists other than vertex_indices or vertex_index",
    ),
    "PLY with a list at vertices": (
        "a.ply",
        made.ascii_ply(extra_vertex="property list uchar int near\n"),
        r"element 'vertex' has a list 'near'",
    ),
    "PLY with corners as floats": (
        "a.ply",
        _HEAD.replace(b"uchar int", b"uchar float"),
        r"its list 'vertex_indices' must be of whole numbers",
    ),
    "PLY that announces rows of nothing": (
        "a.ply",
        _HEAD.replace(b"end_header", b"element x 9\nend_header"),
        r"element 'x' announces 9 rows of nothing",
    ),
    "PLY with a lying count": (
        "a.ply",
        made.binary_ply(vertices=10**15),
        r"'vertex' announces 1000000000000000 rows, more than the file has bytes",
    ),
    "PLY with too many triangles": (
        "a.ply",
        made.binary_ply(faces=2_000_001) + b"\0" * 2_000_001,
        r"2000001 triangles; at most 2000000 are accepted",
    ),
}

PLY_ROWS = {
    "binary PLY broken off in faces": (
        "a.ply",
        _CUT[:-1],
        r"announces 4 rows of 'face', but ends after 3: the file is broken off",
    ),
    "binary PLY broken off in vertices": (
        "a.ply",
        _CUT[: len(made.ply_header("binary_little_endian")) + 50],
        r"announces 5 rows of 'vertex', but ends after 2",
    ),
    "binary PLY with more": ("a.ply", _CUT + b"12", r"2 bytes follow the last announced row"),
    "binary PLY with fewer announced": (
        "a.ply",
        made.binary_ply(faces=3),
        r"13 bytes follow the last announced row",
    ),
    "binary PLY with a face of two": (
        "a.ply",
        _CUT.replace(b"\x03" + struct.pack("<2i", 3, 0) + _CUT[-4:], b"\x02" + _CUT[-12:-4]),
        r"face 3 \(counted from 0\) has 2 corners; wanted 3 or more",
    ),
    "binary PLY with a corner that is no vertex": (
        "a.ply",
        _CUT[:-4] + b"\5\0\0\0",
        r"face 3 \(counted from 0\) has corner 5, but there are 5 vertices, counted from 0",
    ),
    "binary PLY with a negative corner": (
        "a.ply",
        _CUT[:-4] + b"\xff\xff\xff\xff",
        r"face 3 \(counted from 0\) has corner -1",
    ),
    "ASCII PLY with a word": (
        "a.ply",
        made.ascii_ply().replace(b"40.0", b"forty", 1),
        r"line 12 is 'forty 0\.0 0\.0': wanted finite numbers",
    ),
    "ASCII PLY with inf": (
        "a.ply",
        made.ascii_ply().replace(b"40.0", b"inf", 1),
        r"line 12 is 'inf ",
    ),
    "ASCII PLY with a decimal comma": (
        "a.ply",
        made.ascii_ply().replace(b"40.0", b"40,0", 1),
        r"line 12 is '40,0 .*with a point for decimals",
    ),
    "ASCII PLY with too large a number": (
        "a.ply",
        made.ascii_ply().replace(b"40.0", b"1e400", 1),
        r"line 12 is '1e400 0\.0 0\.0': a number is too large",
    ),
    "ASCII PLY with two coordinates": (
        "a.ply",
        made.ascii_ply().replace(b"40.0 ", b"", 1),
        r"line 12 is '0\.0 0\.0'; wanted the numbers of one vertex: x y z",
    ),
    "ASCII PLY with a short face": (
        "a.ply",
        made.ascii_ply().replace(b"3 0 1 4", b"3 0 1"),
        r"line 16 is '3 0 1'; wanted the numbers of one face",
    ),
    "ASCII PLY with half a corner": (
        "a.ply",
        made.ascii_ply().replace(b"3 0 1 4", b"3 0 1.5 4"),
        r"line 16 has 1\.5; its header says a whole number from -2147483648 to",
    ),
    "ASCII PLY broken off": (
        "a.ply",
        made.ascii_ply()[:-9],
        r"announces 4 rows of 'face', but ends after 3",
    ),
    "ASCII PLY with more": (
        "a.ply",
        made.ascii_ply() + b"\n1 2 3\n",
        r"line 21 is '1 2 3', after the",
    ),
}
